import { Field } from '@/app/ui/field'
import type { FormState } from '@/lib/forms/form'
import type { TestKind } from '@/lib/forms/test/draft'
import type { Units } from '../../../visit/units'

const ROWS = { recovery: 16, drawdown: 16, step: 6 } as const
/** Left free below the last row that was filled in, on a form that comes back. */
const SPARE = 4

/** Rows to fill in by hand: how a test is entered without script, and how steps always are. */
export function PlainRows({ kind, state, units }: { kind: TestKind; state: FormState; units: Units }) {
  const filled = Object.keys(state.typed).flatMap((name) => {
    const row = /^(?:elapsed|level|flow)(\d+)$/.exec(name)?.[1]
    return row && state.typed[name] ? [Number(row)] : []
  })
  const count = Math.max(ROWS[kind], ...filled.map((row) => row + SPARE))
  return (
    <div className="stack-tight">
      {Array.from({ length: count }, (_, i) => i + 1).map((row) => (
        <div key={row} className={kind === 'step' ? 'plain-row plain-row-step' : 'plain-row'}>
          {kind === 'step' ? (
            <Cell {...{ state, row }} name="flow" label="Flow" unit={units.flow} what="step" />
          ) : null}
          <Cell
            {...{ state, row }}
            name="elapsed"
            label={kind === 'step' ? 'Length' : 'Time'}
            unit={units.minutes}
            what={kind === 'step' ? 'step' : 'reading'}
          />
          <Cell
            {...{ state, row }}
            name="level"
            label={kind === 'step' ? 'Level at end' : 'Level'}
            unit={units.depth}
            what={kind === 'step' ? 'step' : 'reading'}
          />
        </div>
      ))}
    </div>
  )
}

type CellProps = { state: FormState; row: number; name: string; label: string; unit: string; what: string }

function Cell({ state, row, name, label, unit, what }: CellProps) {
  return (
    <Field
      state={state}
      name={`${name}${row}`}
      label={
        <>
          {label} ({unit}){' '}
          <span className="unseen">
            of {what} {row}
          </span>
        </>
      }
      autoComplete="off"
      inputMode={unit === 'ft' ? 'text' : 'decimal'}
    />
  )
}
