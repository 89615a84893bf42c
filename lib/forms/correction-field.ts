import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import type { Use } from '@/lib/domain/quantity/format'

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

/** A field that holds a quantity, filled with what was typed. */
export const quantityField = (
  name: string,
  label: string,
  quantity: StoredQuantity | undefined,
  use: Use,
): CorrectionField => ({
  name,
  label,
  value: quantity?.typed ?? '',
  input: 'line',
  use,
})

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
