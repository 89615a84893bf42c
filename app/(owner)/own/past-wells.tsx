import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import type { Viewer } from '@/lib/access/viewer'
import { paths } from '@/lib/paths'
import { pastWells } from '@/lib/records/grants'
import { getDb } from '@/lib/records/open'

/** The wells that were sold and may still be read about; nothing where there are none. */
export async function PastWells({ viewer }: { viewer: Viewer }) {
  const past = pastWells(await getDb(), viewer)
  if (past.length === 0) return null
  return (
    <section className="stack" aria-labelledby="past">
      <h2 id="past">Wells you had</h2>
      <ul className="plain-list">
        {past.map((grant) => (
          <li key={grant.id}>
            <Link href={paths.pastWell(grant.wellId)} prefetch={false}>
              {grant.called}
            </Link>
            , until {showDay(grant.upTo, viewer.units)}
          </li>
        ))}
      </ul>
    </section>
  )
}
