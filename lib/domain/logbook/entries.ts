import type { Day } from '@/lib/domain/quantity/day'
import type { Fact, Payload } from './kinds'
import { withLooks } from './looks'

/** An entry as the logbook holds it. */
export type Entry = {
  id: string
  wellId: string
  visitId: string
  occurredOn: Day
  occurredTime: string | null
  payload: Payload
  supersedes: string | null
  withdraws: string | null
  byName: string | null
  /** Whether a household wrote it. */
  fromOwner?: boolean
}

/** What holds now: a fact with the entry it was first written in, and the one whose words count. */
export type CurrentFact = {
  id: string
  spokenBy: string
  visitId: string
  on: Day
  time: string | null
  fact: Fact
  byName: string | null
  fromOwner?: boolean
}

/**
 * The facts that hold, after corrections and withdrawals, in order of day, time and id.
 *
 * The order in which entries arrive does not matter: ids are made in order of time, so of two
 * corrections of one entry the one with the greater id counts. A correction that was itself
 * withdrawn counts for nothing; a withdrawal that was withdrawn neither. A correction of a
 * correction speaks for the entry first written.
 */
export function currentFacts(entries: readonly Entry[]): CurrentFact[] {
  const withdrawn = withdrawnIds(entries)
  const replacedBy = new Map<string, Entry>()
  for (const entry of entries) {
    if (entry.supersedes === null || withdrawn.has(entry.id)) continue
    const rival = replacedBy.get(entry.supersedes)
    if (!rival || entry.id > rival.id) replacedBy.set(entry.supersedes, entry)
  }
  const facts: CurrentFact[] = []
  for (const entry of entries) {
    if (entry.payload.kind === 'correction' || entry.payload.kind === 'withdrawal') continue
    const speaker = lastSpeaker(entry, replacedBy, withdrawn)
    if (!speaker) continue
    facts.push(toFact(entry, speaker))
  }
  return withLooks(facts.sort(inTime))
}

/** Ids taken back by a withdrawal that itself still stands. Chains are followed from their end. */
export function withdrawnIds(entries: readonly Entry[]): ReadonlySet<string> {
  const byTarget = new Map<string, Entry[]>()
  for (const entry of entries) {
    if (entry.withdraws === null) continue
    byTarget.set(entry.withdraws, [...(byTarget.get(entry.withdraws) ?? []), entry])
  }
  if (byTarget.size === 0) return new Set()
  const stands = (entry: Entry, seen: ReadonlySet<string>): boolean =>
    !(byTarget.get(entry.id) ?? []).some((w) => !seen.has(w.id) && stands(w, new Set([...seen, w.id])))
  const gone = new Set<string>()
  for (const [target, withdrawals] of byTarget) {
    if (withdrawals.some((w) => stands(w, new Set([target, w.id])))) gone.add(target)
  }
  return gone
}

/** The entry whose words count for `entry`: itself, or the end of its line of corrections; null when withdrawn. */
function lastSpeaker(
  entry: Entry,
  replacedBy: ReadonlyMap<string, Entry>,
  withdrawn: ReadonlySet<string>,
): Entry | null {
  if (withdrawn.has(entry.id)) return null
  if (replacedBy.size === 0) return entry
  let speaker = entry
  const seen = new Set([entry.id])
  for (;;) {
    const next = replacedBy.get(speaker.id)
    if (!next || seen.has(next.id)) return speaker
    seen.add(next.id)
    speaker = next
  }
}

function toFact(first: Entry, speaker: Entry): CurrentFact {
  const { payload } = speaker
  if (payload.kind === 'withdrawal')
    throw new Error(`entry ${speaker.id} is a withdrawal and supersedes ${first.id}`)
  const corrected = payload.kind === 'correction'
  // Written out and not spread: a logbook is made into facts at every reckoning.
  const fact: CurrentFact = {
    id: first.id,
    spokenBy: speaker.id,
    visitId: first.visitId,
    on: corrected ? payload.occurredOn : first.occurredOn,
    time: corrected ? payload.occurredTime : first.occurredTime,
    fact: corrected ? payload.replacement : payload,
    byName: speaker.byName ?? first.byName,
  }
  if (first.fromOwner) fact.fromOwner = true
  return fact
}

const inTime = (a: CurrentFact, b: CurrentFact) =>
  compareText(a.on, b.on) || compareText(a.time ?? '', b.time ?? '') || compareText(a.id, b.id)

const compareText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)
