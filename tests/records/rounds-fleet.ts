import { yardSetting } from '@/lib/domain/place'
import { addDays } from '@/lib/domain/quantity/day'
import type { Db } from '@/lib/records/db'
import { addDutyToWells } from '@/lib/records/duties'
import { newId } from '@/lib/records/ids'
import { createRounds } from '@/lib/records/round-writes'
import { roundPage } from '@/lib/records/rounds'
import { bareWell, type WellFields } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { putYard } from '@/lib/records/yard'
import { freshDb } from '../setup/fresh-db'
import { installer } from '../setup/viewers'

export const TODAY = '2026-11-20'
export const AT = '2026-11-20T12:00:00.000Z'
export const YARD = yardSetting.parse({ yard: { latitude: 44.155, longitude: -121.33 } })
export const WISH = { days: [TODAY], startAt: '08:00', endAt: '17:00', area: null, soonDays: 30 }

export let db: Db
export const ids: Record<string, string> = {}

async function well(label: string, more: Partial<WellFields> = {}): Promise<string> {
  const n = Object.keys(ids).length
  const place = { latitude: 44.16 + n / 500, longitude: -121.34 + n / 700 }
  const outcome = await createWell(db, installer, { ...bareWell(label), ...place, ...more }, AT)
  if (outcome.kind !== 'stored') throw new Error(outcome.kind)
  ids[label] = outcome.id
  return outcome.id
}

/** A duty done a year and some days ago, so that it is due now. */
async function due(label: string, name: string, consequence: 'health' | 'supply' | 'wear', inDays: number) {
  const fields = {
    name,
    consequence,
    key: name.toLowerCase().replaceAll(' ', '-'),
    everyMonths: 12,
    everyRunS: null,
    everyM3: null,
    condition: null,
    conditionLimitSi: null,
    lastDoneOn: addDays('2025-11-20', inDays),
    typed: {},
  }
  await addDutyToWells(db, installer, [ids[label] ?? ''], fields, AT)
}

/**
 * Eight wells: three to drive to, and one each that is snowed in, retired, without a place, with nothing due, and whose
 * owner wishes visits on Saturdays only (the round is on a Friday).
 */
export async function makeFleet(): Promise<void> {
  db = await freshDb()
  await putYard(db, installer, YARD, AT)
  await well('R1', { visitFrom: '10:00', gateCode: '4471', hazards: 'dog' })
  await well('R2')
  await well('R3')
  await well('Snowed', { closedFrom: '11-15', closedTo: '04-20', closedWhy: 'snow' })
  await well('Gone', { retiredOn: '2026-01-01' })
  await well('Nowhere', { latitude: null, longitude: null })
  await well('Quiet')
  await well('Saturdays', { visitDays: 'Sat' })
  await due('Saturdays', 'Bacteria sample', 'health', -20)
  for (const label of ['R1', 'R2', 'R3', 'Snowed', 'Gone', 'Nowhere']) {
    await due(label, 'Bacteria sample', 'health', -20)
    await due(label, 'Check motor brushes', 'wear', 10)
  }
}

export const line = (wellId: string, visitId: string, payload: object) => ({
  id: newId(),
  wellId,
  visitId,
  occurredOn: TODAY,
  occurredTime: null,
  byName: 'Joss',
  supersedes: null,
  withdraws: null,
  payload,
})
export const service = (keys: string[]) => ({ kind: 'service-done', duties: keys, names: keys, parts: [] })
export const closingOf = (stopId: string, visitId: string, more: object = {}) => ({
  stopId,
  visitId,
  outcome: 'done',
  madeAt: AT,
  said: '',
  steps: [],
  other: '',
  ...more,
})
export const entriesOf = (label: string): number =>
  Number(db.sqlite.prepare('SELECT COUNT(*) FROM "Entry" WHERE "wellId" = ?').pluck().get(ids[label]))

export async function roundWith(labels: readonly string[], planId = newId()): Promise<string> {
  const stops = labels.map((label) => ({ wellId: ids[label] ?? '', dutyKeys: null }))
  const wish = {
    name: 'A round',
    day: TODAY,
    startAt: '08:00',
    endAt: '17:00',
    assignedTo: null,
    notes: null,
  }
  const [id = ''] = await createRounds(db, installer, planId, [{ ...wish, stops }], AT)
  return id
}

export function pageOf(id: string) {
  const page = roundPage(db, installer, id)
  if (!page) throw new Error('the round is gone')
  return page
}
