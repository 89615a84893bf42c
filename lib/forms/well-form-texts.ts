import { z } from 'zod'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { offeredText } from './fields'
import { QUANTITY_NAMES, WELL_QUANTITIES, type WellQuantity } from './well-quantities'

const textsSchema = z.record(z.string(), z.string())

/** What was typed for each quantity of a stored well, from the JSON text of its row. */
export function wellTypedTexts(json: string): Record<string, string> {
  return textsSchema.parse(JSON.parse(json))
}

/** What the form needs of a stored well. `typed` and `extra` are the JSON texts of the row. */
export type StoredWell = Record<WellQuantity | 'latitude' | 'longitude', number | null> & {
  label: string
  name: string | null
  area: string | null
  access: string | null
  visitFrom: string | null
  visitUntil: string | null
  visitDays: string | null
  gateCode: string | null
  hazards: string | null
  notes: string | null
  installedOn: Day | null
  closedFrom: string | null
  closedTo: string | null
  closedWhy: string | null
  suctionMaterial: string | null
  suctionFittings: string | null
  pumpRefOn: Day | null
  retiredOn: Day | null
  typed: string
  extra: string
}

/** A well that names no model. */
export const NO_MODELS: NamedModels = { pump: null, cartridge: null }

type Owner = { name: string; phone: string | null; email: string | null } | null

/** Names of the models that a well names. */
export type NamedModels = { pump: string | null; cartridge: string | null }

/** The texts with which the form of a stored well opens: sent back untouched, they change nothing. */
export function wellFormTexts(
  well: StoredWell,
  owner: Owner,
  system: UnitSystem,
  models: NamedModels,
): Record<string, string> {
  const typed = wellTypedTexts(well.typed)
  const texts: Record<string, string> = {
    label: well.label,
    name: well.name ?? '',
    area: well.area ?? '',
    ownerName: owner?.name ?? '',
    ownerPhone: owner?.phone ?? '',
    ownerEmail: owner?.email ?? '',
    latitude: coordinateText(well.latitude, typed.latitude),
    longitude: coordinateText(well.longitude, typed.longitude),
    access: well.access ?? '',
    visitFrom: well.visitFrom ?? '',
    visitUntil: well.visitUntil ?? '',
    visitDays: well.visitDays ?? '',
    gateCode: well.gateCode ?? '',
    hazards: well.hazards ?? '',
    installedOn: well.installedOn ?? '',
    closedFrom: well.closedFrom ?? '',
    closedTo: well.closedTo ?? '',
    closedWhy: well.closedWhy ?? '',
    pumpModel: models.pump ?? '',
    cartridgeModel: models.cartridge ?? '',
    suctionMaterial: well.suctionMaterial ?? '',
    suctionFittings: well.suctionFittings ?? '',
    pumpRefOn: well.pumpRefOn ?? '',
    notes: well.notes ?? '',
    retiredOn: well.retiredOn ?? '',
  }
  for (const name of QUANTITY_NAMES) {
    texts[name] = offeredText(well[name], typed[name], WELL_QUANTITIES[name].use, system)
  }
  return texts
}

/** As typed, else to six decimals, which is a hand's breadth on the ground. */
function coordinateText(degrees: number | null, typed: string | undefined): string {
  return degrees === null ? '' : (typed ?? String(Number(degrees.toFixed(6))))
}
