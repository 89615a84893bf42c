import type { Viewer } from '@/lib/access/viewer'
import type { Standing } from '@/lib/domain/logbook/appraise'
import { TANK_WORDS } from '@/lib/domain/logbook/describe-owner'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { LogVisit } from '@/lib/domain/logbook/history'
import { type Matter, openMatters } from '@/lib/domain/logbook/owner-matters'
import { type RestLevel, restLevels } from '@/lib/domain/logbook/owner-years'
import type { WaterSummary } from '@/lib/domain/logbook/water-summary'
import type { Db } from './db'
import { logbookOf } from './logbook-of-well'
import { standingOf } from './standings'
import { visibleWell, wellPage } from './wells'

/** What a household is shown of one of its wells: no contact of others, no notes of the desk, no change record. */
export type OwnWell = {
  id: string
  label: string
  name: string | null
  standing: Standing | null
  visits: LogVisit[]
  samples: { entryId: string; on: string; unconfirmed: boolean }[]
  /** What is open between them and the outfit. */
  matters: Matter[]
  /** Levels at rest, oldest first. */
  levels: RestLevel[]
  /** The tank as it was last read; null where it never was. */
  tank: { on: string; words: string } | null
}

/** A well of the viewer's household; null when there is none for this viewer, whether it exists or not. */
export function ownWell(db: Db, viewer: Viewer, wellId: string): OwnWell | null {
  const page = wellPage(db, viewer, wellId)
  if (!page) return null
  const { visits, facts } = logbookOf(page.entries)
  const samples = visits.flatMap((visit) =>
    visit.lines.flatMap(({ id, stands, fact }) =>
      stands && fact.kind === 'sample'
        ? [
            {
              entryId: id,
              on: fact.sampledAt.slice(0, 10),
              unconfirmed: fact.enteredBy === 'owner' && fact.confirmedBy === undefined,
            },
          ]
        : [],
    ),
  )
  const { id, label, name } = page.well
  return {
    id,
    label,
    name,
    standing: page.standing && { ...page.standing, matters: [] },
    visits,
    samples,
    // From the lines that this household may read: what others asked before stays with the outfit.
    matters: page.well.retiredOn === null ? openMatters(facts) : [],
    levels: restLevels(facts),
    tank: lastTank(facts),
  }
}

/** How the water of a well of the viewer's household stands; null where nothing was reckoned, or it is not theirs to see. */
export function ownWater(db: Db, viewer: Viewer, wellId: string): WaterSummary | null {
  return visibleWell(db, viewer, wellId) ? (standingOf(db.sqlite, wellId)?.water ?? null) : null
}

function lastTank(facts: readonly CurrentFact[]): OwnWell['tank'] {
  const last = facts.findLast(({ fact }) => fact.kind === 'tank-level')
  return last?.fact.kind === 'tank-level' ? { on: last.on, words: TANK_WORDS[last.fact.level] } : null
}
