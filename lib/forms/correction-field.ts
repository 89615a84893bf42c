import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import {
  dimensionOf,
  displayUnit,
  parseQuantity,
  type UnitId,
  type UnitSystem,
  type Use,
  unitSymbol,
} from '@/lib/domain/quantity'
import { offeredText } from './fields'

/** One field of the form that corrects a line, filled with what the line says now. */
export type CorrectionField = {
  name: string
  label: string
  value: string
  input: 'line' | 'lines' | 'choice'
  /** The kind of quantity, where the field holds one. */
  use?: Use
  options?: { value: string; label: string }[]
}

/** A field that holds a quantity, filled with what was typed, as `system` reads it. */
export const quantityField = (
  name: string,
  label: string,
  quantity: StoredQuantity | undefined,
  use: Use,
  system: UnitSystem,
): CorrectionField => ({
  name,
  label,
  value: quantity ? typedFor(quantity, use, system) : '',
  input: 'line',
  use,
})

/**
 * A stored amount as text that reads back as the same amount under `system`: as typed where it does, else with the unit
 * that a bare number was typed in. A "12" that meant feet must not come back as 12 m.
 */
export function typedFor({ si, typed }: StoredQuantity, use: Use, system: UnitSystem): string {
  const unit = displayUnit(use, system)
  const other = displayUnit(use, system === 'us' ? 'metric' : 'us')
  const candidates = [typed, `${typed} ${unitSymbol(other)}`]
  return candidates.find((text) => readsAs(text, unit) === si) ?? offeredText(si, undefined, use, system)
}

function readsAs(text: string, unit: UnitId): number | null {
  const min = Number.NEGATIVE_INFINITY
  const reading = parseQuantity(text, { dimension: dimensionOf(unit), unit, locale: 'en', min })
  return reading.kind === 'value' ? reading.quantity.si : null
}

/** A field of plain words. */
export const textField = (
  name: string,
  label: string,
  value: string | undefined,
  input: 'line' | 'lines' = 'line',
): CorrectionField => ({
  name,
  label,
  value: value ?? '',
  input,
})
