import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { displayUnit, unitSymbol, unitSymbols } from '@/lib/domain/quantity'
import { knownWater } from '@/lib/domain/water/known-water'
import { openChainsOf } from '@/lib/domain/water/notice-facts'
import { CAUTIONS } from '@/lib/domain/water/tables/disinfection'
import { readDose } from '@/lib/forms/dose-form'
import type { Params } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { wellWater } from '@/lib/records/well-water'
import { StepForm } from '../_steps/step-form'
import { saveWater } from '../actions'
import { Doubts, FlushSteps } from './around-the-dose'
import { DoseForm } from './dose-form'
import { DoseResult } from './dose-result'

export const metadata: Metadata = { title: 'Chlorine dose' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** How much of which product for this well, with everything that must be said beside it. A plain form that makes an address. */
export default async function DosePage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const found = wellWater(await getDb(), viewer, wellId)
  if (!found) notFound()
  const { units } = viewer
  const levels = found.facts.flatMap(({ fact }) =>
    fact.kind === 'level-reading' && fact.state === 'rest' ? [fact.level.si] : [],
  )
  const known = knownWater(found.well, levels.at(-1) ?? null)
  const reading = readDose(await searchParams, known, units)
  const { answer } = reading
  const bacteria = openChainsOf(found.water).find((chain) => chain.key === 'bacteria')
  return (
    <>
      <PageHead
        title={`Chlorine dose for ${found.well.label}`}
        lead="A reckoning aid. Local codes and licensed practice come first; where they ask for another dose or person, they hold."
      >
        {answer?.kind === 'dose' ? <PrintButton /> : null}
        <Link
          className="button button-quiet"
          href={bacteria ? paths.chain(wellId, 'bacteria') : paths.wellWater(wellId)}
          prefetch={false}
        >
          {bacteria ? 'Back to the steps' : 'Water of the well'}
        </Link>
      </PageHead>
      {bacteria?.fault ? <p className="cautions">{bacteria.fault.text}</p> : null}
      <section className="cautions stack-tight" aria-labelledby="cautions">
        <h2 id="cautions">Before anything else</h2>
        <ul>
          {CAUTIONS.map(({ text }) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      </section>
      <Doubts />
      {answer?.kind === 'dose' ? (
        <DoseResult answer={answer} tablets={reading.tablets} units={units} />
      ) : null}
      {answer?.kind === 'cannot-say' ? (
        <p role="alert">No dose can be reckoned. It needs {answer.need.join('; ')}.</p>
      ) : null}
      <DoseForm reading={reading} action={paths.dose(wellId)} symbols={unitSymbols(units)} />
      {answer?.kind === 'dose' ? (
        <>
          <FlushSteps />
          <section className="sheet no-print" aria-labelledby="record">
            <h2 id="record">When it is done: write it down</h2>
            <p>Change what was done otherwise. Strength and time tell later whether it was done properly.</p>
            <StepForm
              action={saveWater.bind(null, wellId, bacteria ? 'bacteria' : '')}
              step="disinfected"
              chain=""
              visitId={newId()}
              day={today()}
              by={viewer.name}
              initial={reading.step}
              volumeUnit={unitSymbol(displayUnit('volume', units))}
            />
          </section>
        </>
      ) : null}
    </>
  )
}
