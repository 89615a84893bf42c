import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import type { Params } from '@/lib/forms/list-filters'
import {
  readWaterQuery,
  WATER_VIEW_GROUPS,
  type WaterQuery,
  type WaterViewGroup,
} from '@/lib/forms/water-query'
import { paths } from '@/lib/paths'
import { dueFacets } from '@/lib/records/due-list'
import { getDb } from '@/lib/records/open'
import { samplesDue, samplesDueCount } from '@/lib/records/sample-due'
import { waterCounts, waterPage } from '@/lib/records/water-fleet'
import { hasWells } from '@/lib/records/well-list'
import { NoWells } from '../_due/empty'
import { DueSamples } from './due-samples'
import { GroupFrame } from './group-frame'
import { WaterFilterForm } from './water-filter-form'
import { WaterTable } from './water-table'

export const metadata: Metadata = { title: 'Water' }

const ROWS_TOGETHER = 10
const ROWS_ALONE = 50

/** The water of the fleet: who is in a chain, who exceeds, whom nobody can judge, who is due for a sample. */
export default async function WaterPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  const db = await getDb()
  if (!hasWells(db, viewer)) return <NoWells viewer={viewer} title="Water" />
  const query = readWaterQuery(await searchParams)
  const { filter } = query
  const { units } = viewer
  const day = today()
  const counts = { ...waterCounts(db, viewer, day, filter), due: samplesDueCount(db, viewer, day, filter) }
  const limit = query.group ? ROWS_ALONE : ROWS_TOGETHER
  const section = (group: WaterViewGroup) => {
    if (counts[group] === 0) return null
    const after = query.group ? query.after : null
    const frame = { group, count: counts[group], query }
    if (group === 'due') {
      const { rows, next } = samplesDue(db, viewer, day, filter, after, limit)
      return (
        <GroupFrame key={group} {...frame} next={next}>
          <DueSamples rows={rows} today={day} units={units} />
        </GroupFrame>
      )
    }
    const { rows, next } = waterPage(db, viewer, day, group, filter, after, limit)
    return (
      <GroupFrame key={group} {...frame} next={next}>
        <WaterTable rows={rows} group={group} today={day} units={units} />
      </GroupFrame>
    )
  }
  const sections = (query.group ? [query.group] : WATER_VIEW_GROUPS).map(section).filter(Boolean)
  return (
    <>
      <PageHead
        title="Water"
        lead="What the last tests say of each well, by the limits in force, and what they leave open. No test speaks for what was not tested."
      />
      <WaterFilterForm query={query} facets={dueFacets(db, viewer)} />
      {sections.length > 0 ? sections : <Nothing query={query} />}
      {counts.never > 0 && counts.never === Object.values(counts).reduce((sum, n) => sum + n, 0) ? (
        <HowToBegin />
      ) : null}
    </>
  )
}

function Nothing({ query }: { query: WaterQuery }) {
  return (
    <EmptyState title={query.filtered || query.group ? 'Nothing here with this filter' : 'No well is in use'}>
      <p>
        <Link href={paths.water()} prefetch={false}>
          Show the water of all wells
        </Link>
      </p>
    </EmptyState>
  )
}

/** Where no well was ever tested: how the page fills. */
function HowToBegin() {
  return (
    <EmptyState title="No lab sheet is here yet">
      <p>
        Choose a well above, print its sampling sheet, and take the bottles to a laboratory. When the sheet
        comes back, type or paste it as the laboratory wrote it: this page then says what it means, what it
        leaves open, and when to test again. Sheets that you have in a file come in by Import.
      </p>
    </EmptyState>
  )
}
