import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import { toSi, type UnitId, unitSymbol } from '@/lib/domain/quantity'

/** A quantity as a person in the valley would have typed it, rounded as their gauge reads. */
export function typed(value: number, unit: UnitId, decimals: number): StoredQuantity {
  const text = value.toFixed(decimals)
  return { si: toSi(Number(text), unit), typed: `${text} ${unitSymbol(unit)}` }
}
