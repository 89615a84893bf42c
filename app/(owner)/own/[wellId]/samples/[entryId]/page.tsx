import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { AsWritten } from '@/app/(desk)/wells/[wellId]/samples/[entryId]/as-written'
import { Attachments } from '@/app/(desk)/wells/[wellId]/samples/[entryId]/attachments'
import { Findings } from '@/app/(desk)/wells/[wellId]/samples/[entryId]/findings'
import { WhatItSays } from '@/app/(desk)/wells/[wellId]/samples/[entryId]/what-it-says'
import { DropDraft } from '@/app/ui/drop-draft'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { ownViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { saySample } from '@/lib/domain/water/sample-words'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { samplePage } from '@/lib/records/sample-page'
import { getOutfit } from '@/lib/records/settings'
import { wellWater } from '@/lib/records/well-water'
import { Warning } from '../../../warning'
import { attachOwnFile } from './actions'

export const metadata: Metadata = { title: 'Lab sheet' }

type Props = { params: Promise<{ wellId: string; entryId: string }>; searchParams: Promise<Params> }

/** One lab sheet for the household: what it says, what it does not, and each number. */
export default async function OwnSamplePage({ params, searchParams }: Props) {
  const { wellId, entryId } = await params
  const viewer = await ownViewer()
  const db = await getDb()
  const page = samplePage(db, viewer, wellId, entryId)
  if (!page) notFound()
  const asked = await searchParams
  const { fact, sample, verdict, attachments, well } = page
  const said = verdict && saySample(verdict)
  return (
    <>
      <PageHead
        title={`Lab sheet of ${showDay(sample.sampledAt.slice(0, 10), viewer.units)}`}
        lead={well.name ?? `Well ${well.label}`}
      >
        <PrintButton />
        <Link className="button button-quiet" href={paths.ownWell(wellId)} prefetch={false}>
          Back to your well
        </Link>
      </PageHead>
      {textParam(asked, 'saved') === '' ? null : (
        <p className="done no-print" role="status">
          <DropDraft storageKey={`sheet-${wellId}`} />
          The sheet is stored. You can add a photo of it below.
        </p>
      )}
      {textParam(asked, 'attached') === '' ? null : (
        <p className="done no-print" role="status">
          The photo is with the sheet.
        </p>
      )}
      {/* An old clear sheet must not be read past a positive that is still open. */}
      <Warning found={wellWater(db, viewer, wellId)} viewer={viewer} outfit={getOutfit(db)} />
      <WhatItSays said={said} withdrawn="Taken back: this sheet counts for nothing">
        {sample.unconfirmed ? (
          <p className="text">
            This sheet did not come from the outfit. A bad result counts at once. A good one counts when the
            outfit that looks after your well has looked at the sheet too.
          </p>
        ) : null}
      </WhatItSays>
      {verdict ? <Findings verdict={verdict} units={viewer.units} /> : null}
      <AsWritten fact={fact} entryId={entryId} />
      <Attachments
        attachments={attachments}
        action={attachOwnFile.bind(null, wellId, entryId)}
        units={viewer.units}
      />
    </>
  )
}
