import type { Day } from '@/lib/domain/quantity/day'
import { currentFacts, type Entry, withdrawnIds } from './entries'
import type { Fact } from './kinds'

/** An entry with the instant at which it was taken in. */
export type RecordedEntry = Entry & { recordedAt: string }

/** One step in the life of a line. `stands` is false for what was itself taken back later. */
export type HistoryStep = {
  id: string
  by: string | null
  recordedAt: string
  stands: boolean
} & (
  | { kind: 'written'; on: Day; fact: Fact }
  | { kind: 'corrected'; on: Day; fact: Fact; reason: string }
  | { kind: 'withdrawn'; reason: string }
  /** A withdrawal, or a correction, was taken back. */
  | { kind: 'restored'; reason: string }
)

/** One line of the logbook as it reads now, with everything that happened to it. */
export type LogLine = {
  id: string
  /** False where the line was taken back: it is shown, and counts for nothing. */
  stands: boolean
  on: Day
  time: string | null
  by: string | null
  fact: Fact
  /** From the first writing on. One step where nothing ever happened to the line. */
  history: HistoryStep[]
}

export type LogVisit = { visitId: string; on: Day; time: string | null; by: string[]; lines: LogLine[] }

/**
 * The logbook as people read it: newest visit first, and in each visit the work, then what was read, then the rest. Every entry
 * appears exactly once, as a line or as a step in the history of one; a correction of a correction belongs to the
 * line first written. A visit whose lines were corrected to different days stands under the latest of them.
 */
export function logbookVisits(entries: readonly RecordedEntry[]): LogVisit[] {
  const gone = withdrawnIds(entries)
  const now = new Map(currentFacts(entries).map((fact) => [fact.id, fact]))
  const about = stepsByLine(entries)
  const lines = entries.flatMap((entry): (LogLine & { visitId: string })[] => {
    const { payload } = entry
    if (payload.kind === 'correction' || payload.kind === 'withdrawal') return []
    const steps = (about.get(entry.id) ?? []).sort((a, b) => compareText(a.id, b.id))
    const history = [entry, ...steps].map((step) => toStep(step, entry.id, !gone.has(step.id)))
    const current = now.get(entry.id)
    const words = current ?? lastWords(history)
    return [
      {
        visitId: entry.visitId,
        id: entry.id,
        stands: current !== undefined,
        on: words?.on ?? entry.occurredOn,
        time: current ? current.time : entry.occurredTime,
        by: current ? current.byName : entry.byName,
        fact: words?.fact ?? payload,
        history,
      },
    ]
  })
  return groupByVisit(lines)
}

/** Corrections and withdrawals by the line they are about, however long the chain that leads there. */
function stepsByLine(entries: readonly RecordedEntry[]): Map<string, RecordedEntry[]> {
  const target = new Map(entries.map((entry) => [entry.id, entry.supersedes ?? entry.withdraws]))
  const byLine = new Map<string, RecordedEntry[]>()
  for (const entry of entries) {
    let root = target.get(entry.id) ?? null
    if (root === null) continue
    const seen = new Set([entry.id])
    for (let next = target.get(root); next && !seen.has(next); next = target.get(root)) {
      seen.add(root)
      root = next
    }
    byLine.set(root, [...(byLine.get(root) ?? []), entry])
  }
  return byLine
}

function toStep(entry: RecordedEntry, lineId: string, stands: boolean): HistoryStep {
  const { payload } = entry
  const common = { id: entry.id, by: entry.byName, recordedAt: entry.recordedAt, stands }
  if (payload.kind === 'correction') {
    return {
      ...common,
      kind: 'corrected',
      on: payload.occurredOn,
      fact: payload.replacement,
      reason: payload.reason,
    }
  }
  if (payload.kind === 'withdrawal') {
    return { ...common, kind: entry.withdraws === lineId ? 'withdrawn' : 'restored', reason: payload.reason }
  }
  return { ...common, kind: 'written', on: entry.occurredOn, fact: payload }
}

/** What a line that was taken back said last. */
function lastWords(history: readonly HistoryStep[]): { on: Day; fact: Fact } | null {
  const said = history.flatMap((step) =>
    step.kind === 'written' || (step.kind === 'corrected' && step.stands) ? [step] : [],
  )
  return said.at(-1) ?? null
}

function groupByVisit(lines: readonly (LogLine & { visitId: string })[]): LogVisit[] {
  const visits = new Map<string, LogVisit>()
  for (const { visitId, ...line } of [...lines].sort(inOrder)) {
    const visit = visits.get(visitId) ?? { visitId, on: line.on, time: line.time, by: [], lines: [] }
    visits.set(visitId, visit)
    visit.lines.push(line)
    if (line.by !== null && !visit.by.includes(line.by)) visit.by.push(line.by)
    if (line.on > visit.on) {
      visit.on = line.on
      visit.time = line.time
    }
  }
  return [...visits.values()].sort(
    (a, b) =>
      compareText(b.on, a.on) || compareText(b.time ?? '', a.time ?? '') || compareText(b.visitId, a.visitId),
  )
}

/** Work first, readings in the order of the visit form, then tests, samples, events, and what was noted. */
const KIND_ORDER: readonly Fact['kind'][] = [
  'service-done',
  'meter-reading',
  'level-reading',
  'flow-reading',
  'pressure-reading',
  'valve-test',
  'brush-length',
  'electrical-reading',
  'recovery-test',
  'drawdown-test',
  'step-test',
  'sample',
  'sanitary-inspection',
  'water-step',
  'place-measured',
  'event',
  'tank-level',
  'note',
  'visit-request',
  'visit-answer',
  'confirmation',
  'owner-answer',
]

const inOrder = (a: LogLine, b: LogLine) =>
  KIND_ORDER.indexOf(a.fact.kind) - KIND_ORDER.indexOf(b.fact.kind) || compareText(a.id, b.id)

const compareText = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0)
