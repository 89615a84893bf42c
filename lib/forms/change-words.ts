import { z } from 'zod'
import { formatQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'
import { WELL_QUANTITIES } from './well-quantities'

/** One field that a change set otherwise. `was` and `now` are as shown to this reader. */
export type ChangedField = { what: string; was: string; now: string }

/** Fields in words; others of a row (ids, versions, keys) are no matter of people's. */
const WORDS: Record<string, string> = {
  label: 'label',
  name: 'name',
  area: 'area',
  access: 'way in',
  visitFrom: 'come not before',
  visitUntil: 'be done by',
  visitDays: 'come only on',
  gateCode: 'gate code',
  hazards: 'beware of',
  notes: 'notes',
  latitude: 'latitude',
  longitude: 'longitude',
  installedOn: 'installed',
  closedFrom: 'first closed day',
  closedTo: 'last closed day',
  closedWhy: 'why closed',
  retiredOn: 'retired on',
  phone: 'phone',
  email: 'email',
  consequence: 'consequence',
  everyMonths: 'months',
  everyRunS: 'run hours',
  everyM3: 'volume',
  condition: 'measured condition',
  lastDoneOn: 'last done',
  kind: 'kind',
  model: 'model',
  size: 'size',
  fittedOn: 'fitted',
  warrantyUntil: 'warranty until',
  warrantyMonths: 'warranty, months',
  beside: 'others stand beside it',
  count: 'how many',
  removedOn: 'removed',
  suctionMaterial: 'suction pipe made of',
  suctionFittings: 'fittings of the suction line',
  pumpRefOn: 'pump new on',
  type: 'how it works',
  power: 'driven by',
  brushCount: 'brushes',
  brushPart: 'brush set',
  oRing: 'O-ring',
  drivenBy: 'pump driven by',
  fullFlow: 'flow of the pump',
  panels: 'panels',
  tilt: 'tilt of the panels',
  facing: 'panels from south',
  sunTable: 'sun table',
  pumpPlace: 'where the pump stands',
  uses: 'water asked for',
}
const USES: Record<string, Use> = { everyRunS: 'hours', everyM3: 'tank' }

const rowSchema = z.record(z.string(), z.unknown())

/**
 * What a line of the change record changed, field by field, in the reader's units. Empty where something was added or
 * nothing that people set differs. `before` and `after` are the JSON texts of the line.
 */
export function changedFields(
  change: { before: string | null; after: string | null },
  system: UnitSystem,
): ChangedField[] {
  if (change.before === null || change.after === null) return []
  const before = rowSchema.safeParse(JSON.parse(change.before))
  const after = rowSchema.safeParse(JSON.parse(change.after))
  if (!before.success || !after.success) return []
  return Object.entries(after.data).flatMap(([field, now]) => {
    const what = wordFor(field)
    const was = before.data[field]
    if (what === undefined || !(field in before.data) || was === now) return []
    return [{ what, was: shown(field, was, system), now: shown(field, now, system) }]
  })
}

function wordFor(field: string): string | undefined {
  return isQuantity(field) ? WELL_QUANTITIES[field].label.toLowerCase() : WORDS[field]
}

function isQuantity(field: string): field is keyof typeof WELL_QUANTITIES {
  return Object.hasOwn(WELL_QUANTITIES, field)
}

function shown(field: string, value: unknown, system: UnitSystem): string {
  if (value === null || value === '') return 'not known'
  const use = isQuantity(field) ? WELL_QUANTITIES[field].use : USES[field]
  return use !== undefined && typeof value === 'number' ? formatQuantity(value, use, system) : String(value)
}

const partSchema = z.object({ kind: z.string(), model: z.string().nullable(), size: z.string().nullable() })

/** Which part a line of the change record is about, in words; nothing for lines about something else. */
export function partOfChange(change: {
  targetKind: string
  before: string | null
  after: string | null
}): string {
  if (change.targetKind !== 'part') return ''
  const part = partSchema.safeParse(JSON.parse(change.after ?? change.before ?? 'null'))
  if (!part.success) return ''
  const { kind, model, size } = part.data
  return [kind, [model, size].filter(Boolean).join(', ')].filter(Boolean).join(' ')
}
