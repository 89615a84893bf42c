import Link from 'next/link'
import { Pager } from '@/app/ui/pager'
import { Status } from '@/app/ui/status'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import type { Urgency } from '@/lib/domain/upkeep/rank'
import type { DueQuery } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import type { DuePage } from '@/lib/records/due-list'
import { DueTable } from './due-table'
import { countWords } from './status-strip'
import { URGENCY_TONES, URGENCY_WORDS } from './words'

type Group = { urgency: Urgency; count: number; page: DuePage }
type Props = { groups: readonly Group[]; query: DueQuery; today: Day; units: UnitSystem }

/** The due list by urgency. Any rows, of any group, can be chosen for one sheet. */
export function DueGroups({ groups, query, today, units }: Props) {
  const shown = groups.filter((group) => group.page.rows.length > 0)
  return (
    <form className="stack" action={paths.sheet()} method="get">
      <div className="row no-print">
        <button className="button button-quiet" type="submit">
          Print a sheet of those chosen
        </button>
        {query.group ? (
          <Link href={paths.due(query.texts)} prefetch={false}>
            All groups
          </Link>
        ) : null}
      </div>
      {shown.map((group) => (
        <GroupSection key={group.urgency} {...{ group, query, today, units }} />
      ))}
    </form>
  )
}

function GroupSection({ group, query, today, units }: Omit<Props, 'groups'> & { group: Group }) {
  const { urgency, count, page } = group
  const { rows, next } = page
  const alone = query.group !== null
  const groupQuery = { ...query.texts, group: urgency }
  return (
    <section className="stack-tight" aria-labelledby={`group-${urgency}`}>
      <div className="group-head">
        <h2 id={`group-${urgency}`}>
          <Status tone={URGENCY_TONES[urgency]}>
            {URGENCY_WORDS[urgency]} ({countWords(count)})
          </Status>
        </h2>
        <Link className="no-print" href={paths.sheet(rows.map((row) => row.id))} prefetch={false}>
          Sheet of {rows.length === 1 ? 'this one' : `these ${rows.length}`}
        </Link>
      </div>
      <DueTable rows={rows} {...{ urgency, today, units }} />
      <Pager
        first={alone && query.after !== null ? paths.due(groupQuery) : null}
        next={next === null ? null : paths.due(alone ? { ...groupQuery, after: next } : groupQuery)}
      >
        {alone ? 'Next 50' : `All ${countWords(count)} ${URGENCY_WORDS[urgency].toLowerCase()}`}
      </Pager>
    </section>
  )
}
