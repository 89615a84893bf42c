import type { Viewer } from '@/lib/access/viewer'
import type { EntryDraft, Fact } from '@/lib/domain/logbook/kinds'

/** What an owner may write in the logbook of their own well: what they read, send in or see happen. */
export const OWNER_KINDS: readonly Fact['kind'][] = [
  'sample',
  'meter-reading',
  'level-reading',
  'flow-reading',
  'recovery-test',
  'note',
  'tank-level',
  'visit-request',
  'owner-answer',
]
export const OWNER_EVENTS: readonly string[] = ['flooded', 'ran-dry', 'prime-lost']

/** One sentence where this viewer may not write such a line; null where they may. Staff write every kind. */
export function refusedToOwner(viewer: Viewer, { payload }: EntryDraft): string | null {
  if (viewer.role !== 'owner') return null
  // Who may correct and take back is asked by the rules of access.
  if (payload.kind === 'correction' || payload.kind === 'withdrawal') return null
  if (payload.kind === 'event' && OWNER_EVENTS.includes(payload.event)) return null
  return OWNER_KINDS.some((kind) => kind === payload.kind) ? null : NOT_YOURS
}

const NOT_YOURS =
  'This kind of line is written by the outfit that looks after the well. Send them a note instead'
