import type { Viewer } from '@/lib/access/viewer'
import type { EntryDraft } from '@/lib/domain/logbook/kinds'
import type { Day } from '@/lib/domain/quantity'
import type { Db } from '@/lib/records/db'
import { record } from '@/lib/records/record'
import type { VisitSent } from './visit-sent'

/** Stores the lines of a form, all or none, and says what became of it; `otherwise` where it is there with other words. */
export async function storeDrafts(
  db: Db,
  viewer: Viewer,
  wellId: string,
  drafts: readonly EntryDraft[],
  clock: { at: string; today: Day },
  otherwise: string,
): Promise<Exclude<VisitSent, { kind: 'asked' }>> {
  const outcome = await record(db, viewer, drafts, clock.at, clock.today)
  switch (outcome.kind) {
    case 'no-such-well':
      return outcome
    case 'refused': {
      const taken = outcome.problems.some((problem) => problem.field === 'id')
      const message = taken ? otherwise : outcome.problems.map((problem) => problem.message).join(' ')
      return { kind: 'refused', message }
    }
    case 'stored':
      return {
        kind: outcome.stored.length > 0 ? 'stored' : 'already',
        visitId: drafts[0]?.visitId ?? '',
        wellId,
      }
  }
}
