import type { Day } from '@/lib/domain/quantity/day'

/** The quantities of a well's row, in SI, by column. */
export const WELL_NUMBERS = [
  'latitude',
  'longitude',
  'wellDepthM',
  'casingBoreM',
  'casingOutsideM',
  'pitDiameterM',
  'pitLengthM',
  'pitWidthM',
  'gravelPorosity',
  'intakeDepthM',
  'liftM',
  'altitudeM',
  'demandM3PerS',
  'storageM3',
  'suctionBoreM',
  'suctionLengthM',
  'outletDepthM',
  'frostDepthM',
  'pumpRefFlowM3PerS',
  'pumpRefHeadM',
  'pumpRefAmps',
  'pumpRefVolts',
] as const
export type WellNumber = (typeof WELL_NUMBERS)[number]

export const WELL_TEXTS = [
  'name',
  'area',
  'closedFrom',
  'closedTo',
  'closedWhy',
  'access',
  'visitFrom',
  'visitUntil',
  'visitDays',
  'gateCode',
  'hazards',
  'notes',
  'suctionMaterial',
  'suctionFittings',
  'pumpRefOn',
] as const

/** A well as a form or a file states it: what is unknown is null. */
export type WellFields = { label: string } & Record<WellNumber, number | null> &
  Record<(typeof WELL_TEXTS)[number], string | null> & {
    installedOn: Day | null
    retiredOn: Day | null
    /** What drives the pump and what is asked for, as the text of its own shape; see lib/domain/logbook/supply-facts. */
    supply: string | null
    ownerName: string | null
    ownerPhone: string | null
    ownerEmail: string | null
    /** Names of models; a name that the register does not hold yet makes a model of which nothing else is known. */
    pumpModel: string | null
    cartridgeModel: string | null
    /** What was typed for each quantity, by column. */
    typed: Record<string, string>
    /** Columns of a file that the register has no place for. */
    extra: Record<string, string>
  }

/** A well of which nothing but the label is known. */
export function bareWell(label: string): WellFields {
  return {
    label,
    name: null,
    area: null,
    latitude: null,
    longitude: null,
    wellDepthM: null,
    casingBoreM: null,
    casingOutsideM: null,
    pitDiameterM: null,
    pitLengthM: null,
    pitWidthM: null,
    gravelPorosity: null,
    intakeDepthM: null,
    liftM: null,
    altitudeM: null,
    demandM3PerS: null,
    storageM3: null,
    suctionBoreM: null,
    suctionLengthM: null,
    outletDepthM: null,
    frostDepthM: null,
    pumpRefFlowM3PerS: null,
    pumpRefHeadM: null,
    pumpRefAmps: null,
    pumpRefVolts: null,
    suctionMaterial: null,
    suctionFittings: null,
    pumpRefOn: null,
    closedFrom: null,
    closedTo: null,
    closedWhy: null,
    access: null,
    visitFrom: null,
    visitUntil: null,
    visitDays: null,
    gateCode: null,
    hazards: null,
    notes: null,
    installedOn: null,
    retiredOn: null,
    supply: null,
    ownerName: null,
    ownerPhone: null,
    ownerEmail: null,
    pumpModel: null,
    cartridgeModel: null,
    typed: {},
    extra: {},
  }
}

/** What makes two labels or owner names the same: case and spacing do not count. */
export function keyOf(text: string): string {
  return text.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase()
}

const WORDS_MAX = 24

/** The words a well is found by, each cut at 40 letters. */
export function searchWords(...texts: readonly (string | null)[]): string[] {
  const words = new Set<string>()
  for (const text of texts) {
    if (!text) continue
    const key = keyOf(text)
    words.add(key.slice(0, 40))
    for (const word of key.split(/[^\p{L}\p{N}]+/u)) if (word) words.add(word.slice(0, 40))
  }
  return [...words].slice(0, WORDS_MAX)
}
