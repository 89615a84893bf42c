import type { Metadata } from 'next'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { listParam, type Params, textParam } from '@/lib/forms/list-filters'
import { getDb } from '@/lib/records/open'
import { hasPublicAddress, PLATES_MAX, wellPlates } from '@/lib/records/plates'
import { wellList } from '@/lib/records/well-list'
import { makeMissing } from './actions'
import { ChooseWells } from './choose-wells'
import { PlateSheet } from './plate-sheet'

export const metadata: Metadata = { title: 'Plates to print' }

/** Codes for lids and pumps, several wells a sheet. */
export default async function PlatesPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  const db = await getDb()
  const asked = await searchParams
  const wells = listParam(asked, 'wells').filter(Boolean)
  const kind = textParam(asked, 'kind') === 'pump' ? 'pump' : 'lid'
  const text = textParam(asked, 'text') === 'none' ? 'none' : 'label'
  const search = textParam(asked, 'q')
  const plates = wellPlates(db, viewer, wells)
  const bare = plates.filter((well) => well.code === null)
  const found = wellList(db, viewer, { search }, null, PLATES_MAX)
  return (
    <>
      <PageHead
        title="Plates to print"
        lead="Each opens its well’s page for those who are signed in and may see it. Anybody else learns nothing from it."
      >
        {plates.length > bare.length ? <PrintButton /> : null}
      </PageHead>
      {hasPublicAddress() ? null : (
        <p className="find-wrong" role="note">
          <strong>Do not print yet.</strong> The public address of this site (WELLROUND_URL) is not set: these
          codes lead to this machine alone.
        </p>
      )}
      {bare.length > 0 ? (
        <form action={makeMissing} className="row no-print">
          {wells.map((well) => (
            <input key={well} type="hidden" name="wells" value={well} />
          ))}
          <input type="hidden" name="kind" value={kind} />
          <input type="hidden" name="text" value={text} />
          <span>
            {bare.length === 1 ? 'One well has' : `${bare.length} wells have`} no plate yet:{' '}
            {bare.map((well) => well.label).join(', ')}.
          </span>
          {mayFleet(viewer, 'plate.edit') ? (
            <button type="submit" className="button button-quiet">
              Make what is missing
            </button>
          ) : (
            <span>An installer can make them.</span>
          )}
        </form>
      ) : null}
      <PlateSheet plates={plates} kind={kind} text={text} />
      <ChooseWells
        rows={found.rows}
        more={found.next !== null}
        chosen={plates}
        kind={kind}
        text={text}
        search={search}
      />
    </>
  )
}
