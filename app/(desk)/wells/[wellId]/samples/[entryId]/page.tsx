import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { Reply } from '@/app/(desk)/from-owners/matter-list'
import { DropDraft } from '@/app/ui/drop-draft'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { unitSymbols } from '@/lib/domain/quantity'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import type { NextStep } from '@/lib/domain/water/appraise'
import { saySample } from '@/lib/domain/water/sample-words'
import { schemeTitle } from '@/lib/domain/water/schemes'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { readWaterTemperature } from '@/lib/forms/water-temperature'
import { paths } from '@/lib/paths'
import { openMatterOf } from '@/lib/records/matters'
import { getDb } from '@/lib/records/open'
import { samplePage } from '@/lib/records/sample-page'
import { getOutfit } from '@/lib/records/settings'
import { attachFile } from './actions'
import { AsWritten } from './as-written'
import { Attachments } from './attachments'
import { Findings } from './findings'
import { Journey } from './journey'
import { LineHistory } from './line-history'
import { SelfCheck } from './self-check'
import { WhatItSays } from './what-it-says'

export const metadata: Metadata = { title: 'Water sample' }

type Props = { params: Promise<{ wellId: string; entryId: string }>; searchParams: Promise<Params> }

/** One lab sheet: what it says first, then each number with its limit, then the sheet as it was written. Prints as a report. */
export default async function SamplePageScreen({ params, searchParams }: Props) {
  const { wellId, entryId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const page = samplePage(db, viewer, wellId, entryId)
  if (!page) notFound()
  const asked = await searchParams
  const { well, owner, line, fact, sample, verdict, next, attachments } = page
  const { units } = viewer
  const outfit = getOutfit(db)
  const said = verdict && saySample(verdict)
  const matter = openMatterOf(db, viewer, wellId, entryId)
  const steps = next.filter((step) => step.kind !== 'answer' || step.sampleId === entryId)
  return (
    <>
      <p className="print-only">
        {[[outfit.name, outfit.contact].filter(Boolean).join(', '), 'Water sample report']
          .filter(Boolean)
          .join(' · ')}{' '}
        · printed {showDay(today(), units)}
      </p>
      <PageHead
        title={`Water sample of ${showDay(sample.sampledAt.slice(0, 10), units)}`}
        lead={[well.label, well.name, owner?.name].filter(Boolean).join(' · ')}
      >
        <PrintButton />
        {line.stands ? (
          <Link className="button button-quiet" href={paths.correct(entryId)} prefetch={false}>
            Correct this sheet
          </Link>
        ) : null}
        <Link className="button button-quiet" href={paths.wellWater(wellId)} prefetch={false}>
          Water of the well
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <Done
        saved={textParam(asked, 'saved') !== ''}
        attached={textParam(asked, 'attached')}
        wellId={wellId}
      />
      <WhatItSays said={said} withdrawn="Withdrawn: this sheet counts for nothing">
        {verdict ? (
          <p className="muted text">
            Judged by {schemeTitle(verdict.scheme).name}: {verdict.edition}, as in force on the day of the
            sample.
          </p>
        ) : null}
      </WhatItSays>
      {said && steps.length > 0 ? (
        <section className="stack" aria-labelledby="next">
          <h2 id="next">What to do next at this well</h2>
          <ul>
            {steps.map((step) => (
              <li key={step.text}>
                {sayStep(step, units)}
                {step.kind === 'chain' ? (
                  <span className="no-print">
                    {' '}
                    <Link href={paths.chain(wellId, step.chain)} prefetch={false}>
                      All steps of this chain
                    </Link>
                  </span>
                ) : null}
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      {verdict ? <Findings verdict={verdict} units={units} /> : null}
      {matter ? <Reply wellId={wellId} matter={matter} back={paths.sample(wellId, entryId)} /> : null}
      <Journey fact={fact} sample={sample} verdict={verdict} units={units} />
      <AsWritten fact={fact} entryId={entryId} />
      <SelfCheck
        sample={sample}
        temperature={readWaterTemperature(textParam(asked, 'temp'), units)}
        typed={textParam(asked, 'temp')}
        unit={unitSymbols(units).temperature}
      />
      <Attachments attachments={attachments} action={attachFile.bind(null, wellId, entryId)} units={units} />
      <LineHistory line={line} units={units} />
    </>
  )
}

/** Days are shown as this reader writes them. */
function sayStep(step: NextStep, units: UnitSystem): string {
  if (step.kind !== 'test') return step.text
  const { group, dueOn, why } = step.duty
  return `Test ${group} ${dueOn === null ? 'now' : `by ${showDay(dueOn, units)}`}: ${why}.`
}

function Done({ saved, attached, wellId }: { saved: boolean; attached: string; wellId: string }) {
  if (!saved && attached === '') return null
  const words = saved
    ? 'The sheet is stored. A photo or PDF of it can be attached below.'
    : attached === 'already'
      ? 'This file hangs here already: nothing was added.'
      : 'The file is attached.'
  return (
    <p className="done no-print" role="status">
      {saved ? <DropDraft storageKey={`sheet-${wellId}`} /> : null}
      {words}
    </p>
  )
}
