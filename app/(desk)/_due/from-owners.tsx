import Link from 'next/link'
import { MatterList } from '@/app/(desk)/from-owners/matter-list'
import type { Viewer } from '@/lib/access/viewer'
import { paths } from '@/lib/paths'
import type { Db } from '@/lib/records/db'
import { openAcrossFleet, openCount } from '@/lib/records/matters'

const SHOWN = 3

/** What households wait for, above what the duties ask; nothing where nobody waits. */
export function FromOwners({ db, viewer }: { db: Db; viewer: Viewer }) {
  const visits = openCount(db, viewer, 'visit')
  const looks = openCount(db, viewer, 'look')
  if (visits + looks === 0) return null
  const { rows } = openAcrossFleet(db, viewer, 'visit', null, SHOWN)
  const sentIn = looks === 1 ? 'one thing sent in' : `${looks} things sent in`
  return (
    <section className="stack no-print" aria-labelledby="asked-for">
      <h2 id="asked-for">Asked for by owners</h2>
      {rows.length > 0 ? <MatterList rows={rows} units={viewer.units} back={paths.due()} /> : null}
      <p>
        <Link href={paths.fromOwners()} prefetch={false}>
          {[
            visits > SHOWN ? `All ${visits} visits asked for` : '',
            looks > 0 ? `${sentIn}, not yet looked at` : '',
          ]
            .filter(Boolean)
            .join('; ') || 'From owners'}
        </Link>
      </p>
    </section>
  )
}
