import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import { analyteName } from '@/lib/domain/water/analytes'
import { type SampledGroup, samplingSheet, type TestDuty } from '@/lib/domain/water/sampling'
import { GROUP_ANALYTES } from '@/lib/domain/water/tables/frequency'
import { TAKING, TAKING_ALWAYS } from '@/lib/domain/water/tables/taking'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { readSampling, SAMPLED_GROUPS } from '@/lib/forms/sampling-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { getOutfit } from '@/lib/records/settings'
import { wellWater } from '@/lib/records/well-water'
import { BottleTable } from './bottle-table'
import { CustodyLines } from './custody-lines'
import { SamplingForm } from './sampling-form'

export const metadata: Metadata = { title: 'Sampling sheet' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** The sheet that goes along with the bottles: what to fill, how, how long it keeps, and lines to sign on. */
export default async function SamplingPage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const found = wellWater(db, viewer, wellId)
  if (!found) notFound()
  const { well, owner, water } = found
  const asked = await searchParams
  const day = today()
  const chain = textParam(asked, 'chain')
  const query = readSampling(asked, groupsOf(chain, water.duties, day))
  // Of a chain about a substance of no group, the substance alone is sampled.
  const alone = chain !== '' && !listedGroup(chain) && !('groups' in asked) ? [chain] : null
  const analytes = alone ?? query.groups.flatMap((group) => GROUP_ANALYTES[group])
  const sheet = samplingSheet(analytes, query.sampledAt, {
    chlorinated: query.chlorinated,
    labHolding: {},
    setupHours: query.setupHours,
  })
  const outfit = getOutfit(db)
  const place = [well.area, owner ? [owner.name, owner.phone].filter(Boolean).join(', ') : null].filter(
    Boolean,
  )
  return (
    <>
      <PageHead
        title={`Sampling sheet, ${well.label}${well.name ? ` ${well.name}` : ''}`}
        lead={[...place, outfit.name, outfit.contact, `printed ${showDay(day, viewer.units)}`]
          .filter(Boolean)
          .join(' · ')}
      >
        <PrintButton />
        <Link className="button button-quiet" href={paths.wellWater(wellId)} prefetch={false}>
          Water of the well
        </Link>
      </PageHead>
      <SamplingForm query={query} action={paths.sampling(wellId)} chain={chain} groups={SAMPLED_GROUPS} />
      <BottleTable
        sheet={sheet}
        sampledAt={query.sampledAt}
        setupHours={query.setupHours}
        units={viewer.units}
      />
      {sheet.noRule.length > 0 ? (
        <p>Ask the laboratory for the bottles of: {sheet.noRule.map(analyteName).join(', ')}.</p>
      ) : null}
      <section className="stack-tight" aria-labelledby="taking">
        <h2 id="taking">How to take it</h2>
        <p className="muted small">
          Common practice, no published source. What the laboratory says comes first.
        </p>
        <ol>
          {[
            ...TAKING_ALWAYS.slice(0, 3),
            ...query.groups.flatMap((group) => TAKING[group]),
            ...TAKING_ALWAYS.slice(3),
          ].map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ol>
      </section>
      <CustodyLines bottles={sheet.bottles.length} />
    </>
  )
}

const SOON_DAYS = 30

function listedGroup(chain: string): SampledGroup | undefined {
  return SAMPLED_GROUPS.find((group) => group === chain)
}

/** The group of the chain, else what is due soon, else the yearly plan. */
function groupsOf(chain: string, duties: readonly TestDuty[], today: Day): SampledGroup[] {
  const own = listedGroup(chain)
  if (own) return [own]
  const due = duties.filter(({ dueOn }) => dueOn === null || dueOn <= addDays(today, SOON_DAYS))
  return (due.length > 0 ? due : duties).map(({ group }) => group)
}
