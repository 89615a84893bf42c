import type { Viewer } from '@/lib/access/viewer'
import type { EntryDraft } from '@/lib/domain/logbook/kinds'

/**
 * A draft as the one who sends it may say it: a lab sheet from an owner is an owner's, and unconfirmed, whatever the form
 * said. It can open a chain and warn; it clears nothing until somebody of the outfit confirms it by a correction.
 */
export function asSpokenBy(viewer: Viewer, draft: EntryDraft): EntryDraft {
  const { payload } = draft
  if (viewer.role !== 'owner' || payload.kind !== 'sample') return draft
  const { confirmedBy: _, ...sheet } = payload
  return { ...draft, payload: { ...sheet, enteredBy: 'owner' } }
}
