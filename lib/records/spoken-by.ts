import type { Viewer } from '@/lib/access/viewer'
import type { EntryDraft } from '@/lib/domain/logbook/kinds'

/**
 * A draft as the one who sends it may say it: a lab sheet from an owner is an owner's, and unconfirmed, whatever the form
 * said. It can open a chain and warn; it clears nothing until somebody of the outfit confirms it by a correction.
 */
export function asSpokenBy(viewer: Viewer, draft: EntryDraft): EntryDraft {
  if (viewer.role !== 'owner') return draft
  // Whose account wrote it is kept, and no name beside it: it is looked up when read, and gone when they are forgotten.
  const own = { ...draft, byName: null }
  if (own.payload.kind !== 'sample') return own
  const { confirmedBy: _, ...sheet } = own.payload
  return { ...own, payload: { ...sheet, enteredBy: 'owner' } }
}
