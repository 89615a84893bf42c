import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { today } from '@/lib/clock'
import { displayUnit, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'
import type { Chain } from '@/lib/domain/water/chain'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { wellWater } from '@/lib/records/well-water'
import { SavedStep } from '../../_steps/saved-step'
import { FaultSection } from './fault-section'
import { MoreSteps } from './more-steps'
import { Steps } from './steps'
import { Uncounted } from './uncounted'

export const metadata: Metadata = { title: 'Steps after a positive' }

type Props = { params: Promise<{ wellId: string; key: string }>; searchParams: Promise<Params> }

/** One chain after a positive: what is done, what is next and from when, and the forms that write each step. */
export default async function ChainPage({ params, searchParams }: Props) {
  const { wellId, key: given } = await params
  const key = decodeURIComponent(given)
  const viewer = await deskViewer()
  const found = wellWater(await getDb(), viewer, wellId)
  const all = found?.water.chains.filter((chain) => chain.key === key) ?? []
  const chain = all.find((each) => each.closed === null) ?? all.at(-1)
  if (!found || !chain) notFound()
  const { well } = found
  const { units } = viewer
  const form = {
    wellId,
    chain,
    day: today(),
    by: viewer.name,
    volumeUnit: unitSymbol(displayUnit('volume', units)),
  }
  return (
    <>
      <PageHead
        title={`${chain.name}: steps at ${well.label}`}
        lead={[well.name, found.owner?.name, well.area].filter(Boolean).join(' · ')}
      >
        <Link className="button button-quiet" href={paths.wellWater(wellId)} prefetch={false}>
          Water of the well
        </Link>
      </PageHead>
      <SavedStep
        facts={found.facts}
        visitId={textParam(await searchParams, 'saved')}
        wellId={wellId}
        units={units}
      />
      <HowItStands chain={chain} units={units} />
      <Uncounted chain={chain} facts={found.facts} units={units} />
      <FaultSection chain={chain} wellId={wellId} units={units} />
      <Steps {...form} units={units} />
      {chain.closed === null ? <MoreSteps {...form} mayClose={found.mayClose} /> : null}
      <Earlier chains={all.filter((each) => each !== chain)} units={units} />
    </>
  )
}

function HowItStands({ chain, units }: { chain: Chain; units: UnitSystem }) {
  const { closed, positives, clear, clearNeeded } = chain
  const samples = `${positives.length === 1 ? 'One positive sample' : `${positives.length} positive samples`} (${positives.map(({ on }) => showDay(on, units)).join('; ')}), ${clear.length} of ${clearNeeded} clear samples${clear.length > 0 ? ` (${clear.map(({ on }) => showDay(on, units)).join('; ')})` : ''}.`
  return (
    <section className="stack-tight" aria-label="How it stands">
      <p className="standing-said">
        {closed === null ? (
          <Status tone="alarm">Open since {showDay(chain.opened.on, units)}</Status>
        ) : (
          <Status tone={closed.how === 'clear-samples' ? 'calm' : 'unsure'}>
            {closed.how === 'clear-samples'
              ? `Cleared on ${showDay(closed.on, units)} by ${clearNeeded} clear samples`
              : `Closed on ${showDay(closed.on, units)} by ${closed.by}, without the clear samples`}
          </Status>
        )}
      </p>
      <p>{samples}</p>
      {closed?.how === 'person' ? <p>Reason given: {closed.reason}</p> : null}
    </section>
  )
}

function Earlier({ chains, units }: { chains: readonly Chain[]; units: UnitSystem }) {
  if (chains.length === 0) return null
  return (
    <section className="stack-tight" aria-labelledby="earlier">
      <h2 id="earlier">Earlier</h2>
      <ul>
        {chains.map((chain) => (
          <li key={`${chain.opened.on} ${chain.opened.sampleId}`}>{pastChain(chain, units)}</li>
        ))}
      </ul>
    </section>
  )
}

function pastChain({ opened, closed }: Chain, units: UnitSystem): string {
  const since = `Open from ${showDay(opened.on, units)}`
  if (closed === null) return `${since}.`
  const on = showDay(closed.on, units)
  return closed.how === 'clear-samples'
    ? `${since}; cleared on ${on} by clear samples.`
    : `${since}; closed on ${on} by ${closed.by}: ${closed.reason}`
}
