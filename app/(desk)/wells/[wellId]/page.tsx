import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { TakeAlong } from '@/app/_offline/take-along'
import { wellKey } from '@/app/_offline/taken'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { Status } from '@/app/ui/status'
import { mayFleet } from '@/lib/access/rules'
import { today } from '@/lib/clock'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { attachmentsOfWell } from '@/lib/records/attachments'
import { followUpsOfWell } from '@/lib/records/follow-ups'
import { logbookOf } from '@/lib/records/logbook-of-well'
import { openAtWell } from '@/lib/records/matters'
import { getDb } from '@/lib/records/open'
import { partRegisterOf } from '@/lib/records/part-register'
import { wellPage } from '@/lib/records/wells'
import { FollowUps } from '../../_rounds/follow-ups'
import { AsBuilt } from './_page/as-built'
import { ChangeRecord } from './_page/change-record'
import { Charts } from './_page/charts'
import { Duties } from './_page/duties'
import { Household } from './_page/household'
import { Logbook } from './_page/logbook'
import { Parts } from './_page/parts'
import { Place } from './_page/place'
import { Saved } from './_page/saved'
import { SetAside } from './_page/set-aside'
import { Supply } from './_page/supply'
import { Water } from './_page/water'
import { Wear } from './_page/wear'
import { Yield } from './_page/yield'

export const metadata: Metadata = { title: 'Well' }

type Props = { params: Promise<{ wellId: string }>; searchParams: Promise<Params> }

/** Everything about one well: what is due and why, its logbook, how it was built, and how to find it. */
export default async function WellPage({ params, searchParams }: Props) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const page = wellPage(db, viewer, wellId)
  if (!page) notFound()
  const asked = await searchParams
  const { well, owner, duties, standing, changes } = page
  const { visits, facts } = logbookOf(page.entries)
  const parts = partRegisterOf(db, viewer, wellId)
  const mayEdit = mayFleet(viewer, 'well.edit')
  const day = today()
  return (
    <>
      <PageHead
        title={`${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead={[owner?.name, well.area].filter(Boolean).join(' · ')}
      >
        <Link className="button" href={paths.visit(wellId)} prefetch={false}>
          Log a visit
        </Link>
        <Link className="button button-quiet" href={paths.newSample(wellId)} prefetch={false}>
          Log a lab sheet
        </Link>
        <Link className="button button-quiet" href={paths.newTest(wellId)} prefetch={false}>
          Run a test
        </Link>
        {mayEdit ? (
          <Link className="button button-quiet" href={paths.wellEdit(wellId)} prefetch={false}>
            Edit the well
          </Link>
        ) : null}
      </PageHead>
      <Saved
        visits={visits}
        parts={parts}
        savedVisit={textParam(asked, 'saved')}
        corrected={textParam(asked, 'corrected') !== ''}
        withdrawn={textParam(asked, 'withdrawn') !== ''}
        photoRefused={textParam(asked, 'photos') === 'refused'}
        draftKey={`visit-${wellId}`}
        standing={standing}
        units={viewer.units}
      />
      {well.retiredOn ? <Status tone="unsure">Retired: nothing is due here any more</Status> : null}
      <nav className="here no-print" aria-label="On this page">
        <a href="#duties">Duties</a>
        <a href="#water">Water</a>
        <a href="#yield">Yield</a>
        <a href="#wear">Wear and pump</a>
        <a href="#supply">Supply</a>
        <a href="#charts">Levels and meters</a>
        <a href="#logbook">Logbook</a>
        <a href="#built">As built</a>
        <a href="#parts">Parts</a>
        <Link href={paths.tests(wellId)} prefetch={false}>
          Tests
        </Link>
      </nav>
      <Household wellId={wellId} rows={openAtWell(db, viewer, wellId)} units={viewer.units} />
      <TakeAlong
        user={viewer.userId}
        from={paths.phoneWell(wellId)}
        storeKey={wellKey(wellId)}
        label={well.label}
        what="this well"
      />
      <Place well={well} owner={owner} facts={facts} units={viewer.units} />
      <FollowUps stops={followUpsOfWell(db, viewer, wellId)} units={viewer.units} back="well" />
      <Duties
        wellId={wellId}
        rows={duties}
        standing={standing}
        today={day}
        units={viewer.units}
        mayEdit={mayEdit}
      />
      <Water wellId={wellId} standing={standing} today={day} units={viewer.units} />
      <Yield wellId={wellId} standing={standing} units={viewer.units} today={day} />
      <Wear
        well={well}
        equipment={page.equipment}
        standing={standing}
        facts={facts}
        today={day}
        units={viewer.units}
      />
      <Supply wellId={wellId} standing={standing} today={day} units={viewer.units} />
      <SetAside standing={standing} units={viewer.units} />
      <Charts facts={facts} standing={standing} units={viewer.units} />
      <Logbook
        wellId={wellId}
        visits={visits}
        units={viewer.units}
        files={attachmentsOfWell(db, viewer, wellId)}
      />
      <AsBuilt well={well} units={viewer.units} />
      <Parts
        wellId={wellId}
        parts={parts}
        facts={facts}
        equipment={page.equipment}
        units={viewer.units}
        today={day}
        mayEdit={mayEdit}
      />
      <ChangeRecord changes={changes} units={viewer.units} />
    </>
  )
}
