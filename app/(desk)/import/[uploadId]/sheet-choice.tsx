import type { TableKind } from '@/lib/exchange/columns'

/** Asks which sheet of a workbook holds the table. */
export function SheetChoice({
  sheets,
  kind,
}: {
  sheets: readonly { name: string; rows: number }[]
  kind: TableKind
}) {
  return (
    <form className="form" method="get">
      <input type="hidden" name="kind" value={kind} />
      <fieldset className="field">
        <legend>The workbook has several sheets. Which one?</legend>
        {sheets.map(({ name, rows }, i) => (
          <label className="choice" key={name}>
            <input type="radio" name="sheet" value={name} defaultChecked={i === 0} />
            <span>
              {name} <span className="hint">({rows} rows)</span>
            </span>
          </label>
        ))}
      </fieldset>
      <button type="submit" className="button">
        Look at this sheet
      </button>
    </form>
  )
}
