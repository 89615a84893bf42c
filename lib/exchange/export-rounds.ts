import { stringify } from 'csv-stringify/sync'
import type { Viewer } from '@/lib/access/viewer'
import type { Db } from '@/lib/records/db'
import { everyRound, type RoundHead, type RoundStop } from '@/lib/records/rounds'
import { guarded } from './guard'

const HEADINGS = [
  'round',
  'day',
  'status',
  'driver',
  'leave',
  'back_by',
  'position',
  'well',
  'duties',
  'minutes',
  'note',
  'not_before',
  'done_by',
  'only_on',
  'outcome',
  'closed_on',
  'closed_by',
  'said',
  'to_follow',
  'settled',
] as const

/** Tells spreadsheet programs that the file is UTF-8. */
const BYTE_ORDER_MARK = '\uFEFF'

/**
 * Every round as text, a line a stop, by day and position; a round without stops has one line. For reading on: the import
 * does not take it back, and what happened at the wells is in the files of the logbook.
 * Throws  NotAllowed unless the viewer may export.
 */
export function* exportRounds(db: Db, viewer: Viewer): Generator<string> {
  yield BYTE_ORDER_MARK + stringify([[...HEADINGS]])
  for (const { round, stops } of everyRound(db, viewer)) {
    const lines = stops.length === 0 ? [stopCells(null)] : stops.map(stopCells)
    yield stringify(lines.map((line) => [...roundCells(round), ...line].map(guarded)))
  }
}

function roundCells({ name, day, status, assignedTo, startAt, endAt }: RoundHead): string[] {
  return [name, day, status, assignedTo?.name ?? '', startAt, endAt]
}

function stopCells(stop: RoundStop | null): string[] {
  if (!stop) return Array.from({ length: HEADINGS.length - 6 }, () => '')
  return [
    String(stop.position),
    stop.label,
    stop.duties.map((duty) => duty.name).join('; '),
    String(stop.minutes),
    stop.note ?? '',
    stop.notBefore ?? '',
    stop.doneBy ?? '',
    stop.onlyOn ?? '',
    stop.outcome ?? '',
    stop.closedOn ?? '',
    stop.closedBy ?? '',
    stop.said ?? '',
    stop.nextSteps.map((step) => (step.by ? `${step.words} (by ${step.by})` : step.words)).join('; '),
    stop.settledAt ?? '',
  ]
}
