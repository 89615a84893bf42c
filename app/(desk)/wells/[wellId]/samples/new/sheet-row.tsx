import { useState } from 'react'
import type { RowAsk } from '@/lib/forms/sheet/row-reading'
import { COLUMNS, type Column, cellField, type SheetRow } from '@/lib/forms/sheet/rows'
import type { SheetState } from './sheet-state'

const LABELS: Readonly<Record<Column, string>> = {
  analyte: 'Tested for',
  result: 'Result',
  unit: 'Unit',
  reportingLimit: 'Reporting limit',
  qualifier: 'Qualifier',
  method: 'Method',
}

type Props = {
  n: number
  state: SheetState
  row: SheetRow | undefined
  unitListOf: Readonly<Record<string, string>>
}

/** One row of the sheet: its cells, how it was read, and what is asked about it. */
export function SheetRowFields({ n, state, row, unitListOf }: Props) {
  const view = state.views?.[n]
  const [named, setNamed] = useState<string | null>(null)
  const name = named ?? row?.analyte ?? ''
  const list = unitListOf[name.trim().toLowerCase()]
  const asked = view?.asks.some((ask) => !ask.answered) ?? false
  return (
    <li data-row={n} className={asked ? 'lab-row lab-row-asked' : 'lab-row'}>
      {row?.pasted ? <input type="hidden" name={cellField(n, 'pasted')} value="yes" /> : null}
      {COLUMNS.map((column) => (
        <Cell
          key={column}
          n={n}
          column={column}
          state={state}
          value={row?.[column] ?? ''}
          list={column === 'analyte' ? 'analytes' : column === 'unit' ? list : undefined}
          onInput={column === 'analyte' ? setNamed : undefined}
        />
      ))}
      {view && (view.words !== '' || view.asks.length > 0) ? (
        <div className="lab-read">
          {view.words === '' ? null : <p>{view.words}</p>}
          {view.asks.map((ask) => (
            <RowQuestion key={`${ask.field}-${state.typed[ask.field] ?? ''}`} ask={ask} state={state} />
          ))}
        </div>
      ) : null}
    </li>
  )
}

function Cell({
  n,
  column,
  state,
  value,
  list,
  onInput,
}: {
  n: number
  column: Column
  state: SheetState
  value: string
  list: string | undefined
  onInput: ((text: string) => void) | undefined
}) {
  const field = cellField(n, column)
  const error = state.errors[field]
  return (
    <div className={`lab-cell lab-${column}`}>
      <label className="lab-label" htmlFor={field}>
        {LABELS[column]}
        <span className="unseen"> of row {n}</span>
      </label>
      {error ? (
        <span className="error" id={`${field}-error`}>
          <span className="unseen">Error: </span>
          {error}
        </span>
      ) : null}
      <input
        className="input"
        type="text"
        id={field}
        name={field}
        defaultValue={value}
        list={list}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        aria-invalid={error ? true : undefined}
        aria-describedby={error ? `${field}-error` : undefined}
        onInput={onInput && ((event) => onInput(event.currentTarget.value))}
      />
    </div>
  )
}

/** Few answers stand in sight; many (which of all analytes) in a list. */
function RowQuestion({ ask, state }: { ask: RowAsk; state: SheetState }) {
  const chosen = state.typed[ask.field] ?? ''
  if (ask.choices.length > 6) {
    return (
      <div className="field question">
        <label className="label" htmlFor={ask.field}>
          {ask.message}
        </label>
        <select className="input" id={ask.field} name={ask.field} defaultValue={chosen}>
          <option value="">Choose</option>
          {ask.choices.map(({ value, label }) => (
            <option key={value} value={value}>
              {label}
            </option>
          ))}
        </select>
      </div>
    )
  }
  return (
    <fieldset className="field question">
      <legend>{ask.message}</legend>
      <p className="hint">Mend the row above, or choose:</p>
      {ask.choices.map(({ value, label }, i) => (
        <label className="choice" key={value}>
          <input
            type="radio"
            id={i === 0 ? ask.field : undefined}
            name={ask.field}
            value={value}
            defaultChecked={chosen === value}
          />
          <span>{label}</span>
        </label>
      ))}
    </fieldset>
  )
}
