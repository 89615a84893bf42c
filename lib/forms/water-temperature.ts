import { displayUnit, parseQuantity, type UnitSystem } from '@/lib/domain/quantity'

export type WaterTemperature =
  | { kind: 'blank' }
  | { kind: 'value'; tempC: number }
  | { kind: 'problem'; message: string }

/** The temperature of the water in a well as typed, in the reader's unit or with its own; °C. */
export function readWaterTemperature(text: string, system: UnitSystem): WaterTemperature {
  const unit = displayUnit('temperature', system)
  const reading = parseQuantity(text, { dimension: 'temperature', unit, locale: 'en' })
  if (reading.kind === 'blank') return { kind: 'blank' }
  if (reading.kind === 'problem') return { kind: 'problem', message: reading.message }
  return { kind: 'value', tempC: Math.round((reading.quantity.si - 273.15) * 100) / 100 }
}
