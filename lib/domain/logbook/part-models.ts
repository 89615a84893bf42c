import { modelKey, type RegisterPart } from '@/lib/domain/pump'
import type { Equipment } from './equipment'
import { partNamed } from './part-words'

/** A part in place that goes by another name than the model with which the well is reckoned. */
export type OtherModel = { kind: 'pump' | 'cartridge'; fitted: string; named: string }

/**
 * Parts in place whose name is not that of the model which the well names: brushes, lift and pressure drop are reckoned
 * with the model, so that one of the two is to be put right. A name that holds the other counts as the same.
 */
export function otherModels(
  parts: readonly RegisterPart[],
  { pump, cartridge }: Pick<Equipment, 'pump' | 'cartridge'>,
): OtherModel[] {
  const named = { pump: pump?.name ?? null, cartridge: cartridge?.name ?? null }
  return (['pump', 'cartridge'] as const).flatMap((kind) => {
    const name = named[kind]
    if (name === null) return []
    const inPlace = parts.filter((part) => part.kind === kind && part.removedOn === null)
    const names = inPlace.map(partNamed).filter((text) => text !== '')
    if (names.length === 0 || names.some((fitted) => agree(fitted, name))) return []
    return [{ kind, fitted: names.join('; '), named: name }]
  })
}

function agree(a: string, b: string): boolean {
  const [one, other] = [modelKey(a), modelKey(b)]
  return one.includes(other) || other.includes(one)
}
