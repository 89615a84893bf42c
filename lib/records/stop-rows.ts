import { z } from 'zod'
import type { ChainSummary } from '@/lib/domain/logbook/water-summary'
import {
  type FollowUp,
  followUp,
  type LatLon,
  type PlannedDuty,
  plannedDuty,
  STOP_OUTCOMES,
  type StopOutcome,
} from '@/lib/domain/place'
import type { Day } from '@/lib/domain/quantity/day'
import type { Stop as StopRow } from './generated/client'

/** One stop of a round with everything that whoever drives there must know. Installers and technicians only. */
export type RoundStop = {
  id: string
  roundId: string
  /** From 1, in the order of visiting. */
  position: number
  locked: boolean
  wellId: string
  label: string
  wellName: string | null
  area: string | null
  at: LatLon | null
  access: string | null
  gateCode: string | null
  hazards: string | null
  owner: { id: string; name: string; phone: string | null; email: string | null } | null
  /** What the household is still warned of. */
  chains: ChainSummary[]
  duties: PlannedDuty[]
  why: string[]
  minutes: number
  /** What the planner tells whoever drives there. */
  note: string | null
  notBefore: string | null
  doneBy: string | null
  /** Days of the week, "Tue, Sat"; null where every day suits. */
  onlyOn: string | null
  /** Null while the stop is open. */
  outcome: StopOutcome | null
  /** Instant of the closing on the device that made it. */
  closedAt: string | null
  closedOn: Day | null
  closedBy: string | null
  visitId: string | null
  said: string | null
  nextSteps: FollowUp[]
  settledAt: string | null
  settledBy: string | null
  version: number
}

export type StoredStop = StopRow & {
  label: string
  wellName: string | null
  area: string | null
  latitude: number | null
  longitude: number | null
  access: string | null
  gateCode: string | null
  hazards: string | null
  ownerId: string | null
  ownerName: string | null
  ownerPhone: string | null
  ownerEmail: string | null
}

/** Goes on with AND. A well that was taken out has no stop any more. */
export const STOP_SELECT = `SELECT s.*, w."label", w."name" AS "wellName", w."area", w."latitude", w."longitude",
  w."access", w."gateCode", w."hazards", o."id" AS "ownerId", o."name" AS "ownerName", o."phone" AS "ownerPhone",
  o."email" AS "ownerEmail"
  FROM "Stop" s JOIN "Well" w ON w."id" = s."wellId" LEFT JOIN "Owner" o ON o."id" = w."ownerId"
  WHERE w."struck" = 0`

const duties = z.array(plannedDuty)
const followUps = z.array(followUp)
const sentences = z.array(z.string())

/** Throws on JSON that the writes of this folder never store. */
export function stopOf(row: StoredStop, chains: ChainSummary[]): RoundStop {
  const outcome = STOP_OUTCOMES.find((known) => known === row.outcome) ?? null
  const { latitude, longitude, ownerId, ownerName } = row
  return {
    id: row.id,
    roundId: row.roundId,
    position: row.position,
    locked: Boolean(row.locked),
    wellId: row.wellId,
    label: row.label,
    wellName: row.wellName,
    area: row.area,
    at: latitude !== null && longitude !== null ? { latitude, longitude } : null,
    access: row.access,
    gateCode: row.gateCode,
    hazards: row.hazards,
    owner:
      ownerId === null || ownerName === null
        ? null
        : { id: ownerId, name: ownerName, phone: row.ownerPhone, email: row.ownerEmail },
    chains,
    duties: duties.parse(JSON.parse(row.duties)),
    why: sentences.parse(JSON.parse(row.why)),
    minutes: row.minutes,
    note: row.note,
    notBefore: row.notBefore,
    doneBy: row.doneBy,
    onlyOn: row.onlyOn,
    outcome,
    closedAt: row.closedAt,
    closedOn: row.closedOn,
    closedBy: row.closedBy,
    visitId: row.visitId,
    said: row.said,
    nextSteps: followUps.parse(JSON.parse(row.nextSteps)),
    settledAt: row.settledAt,
    settledBy: row.settledBy,
    version: row.version,
  }
}
