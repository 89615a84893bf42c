import type { Metadata } from 'next'
import Link from 'next/link'
import { SelectField } from '@/app/ui/field'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { slug } from '@/lib/domain/upkeep/keys'
import { DUTY_LIBRARY } from '@/lib/domain/upkeep/library'
import { listParam, type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { models } from '@/lib/records/models'
import { getDb } from '@/lib/records/open'
import { previewSetUp } from '@/lib/records/set-up'
import { WELLS_AT_ONCE } from '@/lib/records/well-list'
import { chosenFields, chosenWells } from '../duties/chosen'
import { NothingChosen } from '../duties/nothing-chosen'
import { choiceOf } from './choice'
import { Preview } from './preview'

export const metadata: Metadata = { title: 'Set wells up alike' }

/** Models and duties for wells of one kind: choose, look at what would change on each, then do it in one step. */
export default async function SetUpPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  await demand(viewer, 'well.edit')
  const params = await searchParams
  const done = textParam(params, 'done')
  if (done !== '') return <Done params={params} />
  const db = await getDb()
  const { ids, more } = chosenWells(db, viewer, params)
  if (ids.length === 0) return <NothingChosen title="Set wells up alike" />
  const chosen = chosenFields(params)
  const choice = choiceOf(params)
  const looked = textParam(params, 'look') === '1'
  const { pumps, cartridges } = models(db, viewer)
  const options = (rows: readonly { id: string; name: string; retired: boolean }[]) => [
    { value: '', label: 'leave as it is' },
    ...rows.filter(({ retired }) => !retired).map(({ id, name }) => ({ value: id, label: name })),
  ]
  const typed = {
    typed: { pump: choice.pumpModelId ?? '', cartridge: choice.cartridgeModelId ?? '' },
    errors: {},
  }
  const ticked = new Set(listParam(params, 'duty'))
  return (
    <>
      <PageHead
        title={`Set ${ids.length === 1 ? '1 well' : `${ids.length.toLocaleString('en-US')} wells`} up alike`}
        lead="What is chosen here is given to all of them in one step, which can be taken back whole. Nothing else of a well is touched."
      >
        <Link className="button button-quiet" href={paths.wells()} prefetch={false}>
          Back to the wells
        </Link>
      </PageHead>
      {more ? (
        <p className="text">
          More than {WELLS_AT_ONCE.toLocaleString('en-US')} wells are found; one step serves the first of them
          by label. Narrow the search to reach the others.
        </p>
      ) : null}
      <form className="form" action={paths.bulkSetUp()} method="get">
        {chosen.map(({ name, value }) => (
          <input key={`${name}=${value}`} type="hidden" name={name} value={value} />
        ))}
        <input type="hidden" name="look" value="1" />
        <div className="fields">
          <SelectField state={typed} name="pump" label="Pump model" options={options(pumps)} />
          <SelectField state={typed} name="cartridge" label="Cartridge model" options={options(cartridges)} />
        </div>
        <fieldset className="field">
          <legend>Duties, where a well has none of that name</legend>
          {DUTY_LIBRARY.map(({ name }) => (
            <label className="choice" key={name}>
              <input type="checkbox" name="duty" value={slug(name)} defaultChecked={ticked.has(slug(name))} />
              <span>{name}</span>
            </label>
          ))}
        </fieldset>
        <div className="row">
          <button className="button" type="submit">
            Show what would change
          </button>
          <Link href={paths.models()} prefetch={false}>
            Pump and cartridge models
          </Link>
        </div>
      </form>
      {looked ? (
        <Preview
          rows={previewSetUp(db, viewer, ids, choice)}
          choice={choice}
          hidden={chosen}
          names={{
            pump: pumps.find(({ id }) => id === choice.pumpModelId)?.name ?? null,
            cartridge: cartridges.find(({ id }) => id === choice.cartridgeModelId)?.name ?? null,
          }}
        />
      ) : null}
    </>
  )
}

/** What was done, and the way back. */
function Done({ params }: { params: Params }) {
  const batchId = textParam(params, 'done')
  const nothing = batchId === 'nothing'
  return (
    <>
      <PageHead title="Set wells up alike" />
      <div role="status" className="done">
        {nothing
          ? 'Nothing was changed: the wells had all of it already.'
          : `${textParam(params, 'wells')} wells were set up; ${textParam(params, 'duties')} duties were given.`}
      </div>
      <p className="row">
        <Link className="button" href={paths.wells()} prefetch={false}>
          To the wells
        </Link>
        {nothing ? null : (
          <Link className="button button-quiet" href={paths.importUndo(batchId)} prefetch={false}>
            Take this step back
          </Link>
        )}
      </p>
    </>
  )
}
