import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { limitUnits, templateOfKey, templateTexts } from '@/lib/forms/duty-form'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { WELLS_AT_ONCE } from '@/lib/records/well-list'
import { DutyForm } from '../../_register/duty-form'
import { LibraryChoice } from '../../_register/library-choice'
import { giveDuty } from './actions'
import { chosenFields, chosenWells } from './chosen'
import { NothingChosen } from './nothing-chosen'

export const metadata: Metadata = { title: 'Give wells a duty' }

const LABELS_SHOWN = 30

export default async function BulkDutyPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  await demand(viewer, 'duty.edit')
  const params = await searchParams
  const { ids, labels, more } = chosenWells(await getDb(), viewer, params)
  if (ids.length === 0) return <NothingChosen title="Give wells a duty" />
  const choice = chosenFields(params)
  const chosen = textParam(params, 'template')
  const template = templateOfKey(chosen)
  const shown = labels.slice(0, LABELS_SHOWN)
  const rest = ids.length - shown.length
  return (
    <>
      <PageHead
        title={`Give ${ids.length === 1 ? '1 well' : `${ids.length.toLocaleString('en-US')} wells`} a duty`}
        lead={`${shown.join(', ')}${rest > 0 ? ` and ${rest.toLocaleString('en-US')} more` : ''}`}
      />
      {more ? (
        <p className="text">
          More than {WELLS_AT_ONCE.toLocaleString('en-US')} wells are found; one step serves the first{' '}
          {WELLS_AT_ONCE.toLocaleString('en-US')} by label. Narrow the search to reach the others.
        </p>
      ) : null}
      <LibraryChoice action={paths.bulkDuties()} chosen={chosen} keep={choice} />
      <DutyForm
        key={chosen}
        action={giveDuty}
        initial={template ? templateTexts(template, viewer.units) : {}}
        units={limitUnits(viewer.units)}
        submit="Give them this duty"
        hidden={choice}
      />
      <p>
        <Link href={paths.wells()} prefetch={false}>
          Back to the wells
        </Link>
      </p>
    </>
  )
}
