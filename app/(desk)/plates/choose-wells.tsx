import type { WellListRow } from '@/lib/records/well-list'

type Props = {
  rows: readonly WellListRow[]
  more: boolean
  /** Wells whose plates are shown, whatever is searched for: a search loses nobody's choice. */
  chosen: readonly { wellId: string; label: string; name: string | null }[]
  kind: 'lid' | 'pump'
  text: 'label' | 'none'
  search: string
}

const KINDS = [
  { value: 'lid', label: 'For the lid: 56 mm wide' },
  { value: 'pump', label: 'For the pump: a card 86 mm wide' },
]
const TEXTS = [
  { value: 'label', label: 'The label of the well' },
  { value: 'none', label: 'Nothing that names the well' },
]

/** Which wells, which kind and which words: a plain form that leads back to this page. */
export function ChooseWells({ rows, more, chosen, kind, text, search }: Props) {
  const ticked = new Set(chosen.map((well) => well.wellId))
  const listed = new Set(rows.map((row) => row.id))
  const kept = chosen
    .filter((well) => !listed.has(well.wellId))
    .map(({ wellId, label, name }) => ({ id: wellId, label, name, area: null }))
  return (
    <form action="/plates" className="form form-wide no-print">
      <div className="fields">
        <Few name="kind" legend="Kind" options={KINDS} chosen={kind} />
        <Few name="text" legend="Printed beside the code" options={TEXTS} chosen={text} />
      </div>
      <div className="field">
        <label className="label" htmlFor="q">
          Search wells
        </label>
        <input className="input" id="q" name="q" defaultValue={search} />
      </div>
      <div>
        <button type="submit" className="button button-quiet">
          Search
        </button>
      </div>
      <fieldset className="field plate-choice">
        <legend>Wells</legend>
        {[...kept, ...rows].map(({ id, label, name, area }) => (
          <label className="choice" key={id}>
            <input type="checkbox" name="wells" value={id} defaultChecked={ticked.has(id)} />
            <span>
              {label}
              {name ? `, ${name}` : ''}
              {area ? <span className="muted"> {area}</span> : null}
            </span>
          </label>
        ))}
        {rows.length === 0 ? <p>No well is found by these words.</p> : null}
        {more ? <p className="muted">There are more wells: search for the ones you want.</p> : null}
      </fieldset>
      <div>
        <button type="submit" className="button">
          Show the plates
        </button>
      </div>
    </form>
  )
}

type FewProps = { name: string; legend: string; options: { value: string; label: string }[]; chosen: string }

function Few({ name, legend, options, chosen }: FewProps) {
  return (
    <fieldset className="field">
      <legend>{legend}</legend>
      {options.map(({ value, label }) => (
        <label className="choice" key={value}>
          <input type="radio" name={name} value={value} defaultChecked={chosen === value} />
          <span>{label}</span>
        </label>
      ))}
    </fieldset>
  )
}
