import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'

/**
 * A sentence of the reckoning for a reader of feet. The reckoning writes every length as "2.54 m"; whoever reads metres
 * gets it as it is, anybody else with each length in their own unit.
 */
export function inUnits(sentence: string, system: UnitSystem): string {
  if (system === 'metric') return sentence
  return sentence.replace(/(-?\d+\.\d{2}) m(?![\w²³/])/g, (_, metres: string) =>
    formatQuantity(Number(metres), 'depth', system),
  )
}
