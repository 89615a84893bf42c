import { Field, type Option, SelectField } from '@/app/ui/field'
import { Section } from '@/app/ui/section'
import { PART_ROWS } from '@/lib/forms/visit/shape'
import type { VisitState } from './actions'

/** The duties of the well to tick, other work, and parts fitted. */
export function WorkSection({
  state,
  duties,
  parts,
  ticked,
  models,
}: {
  state: VisitState
  parts: readonly Option[]
  /** Models and sizes of the stock book, offered while one is typed. */
  models: readonly string[]
  duties: readonly { key: string; name: string; hint: string }[]
  /** Duties that come ticked on a fresh form: those planned at a stop. */
  ticked: readonly string[]
}) {
  const fresh = state.typed.visitId === undefined
  const rows = Array.from({ length: PART_ROWS }, (_, i) => i + 1)
  return (
    <Section
      title="Done today"
      open
      state={state}
      fields={['otherWork', ...rows.flatMap((i) => [`partKind${i}`, `partCount${i}`, `partWarranty${i}`])]}
    >
      {duties.length > 0 ? (
        <fieldset className="field">
          <legend className="unseen">Duties done</legend>
          {duties.map(({ key, name, hint }) => (
            <label className="choice" key={key}>
              <input
                type="checkbox"
                name={`duty:${key}`}
                value="done"
                defaultChecked={fresh ? ticked.includes(key) : state.typed[`duty:${key}`] !== undefined}
              />
              <span>
                {name} <span className="hint">({hint})</span>
              </span>
            </label>
          ))}
        </fieldset>
      ) : (
        <p className="muted">This well has no duties yet. Name the work below.</p>
      )}
      <Field state={state} name="otherWork" label="Other work (optional)" maxLength={120} />
      <datalist id="part-models">
        {models.map((model) => (
          <option key={model} value={model} />
        ))}
      </datalist>
      {rows.map((i) => (
        <div className="fields" key={i}>
          <SelectField state={state} name={`partKind${i}`} label={`Part fitted, ${i}`} options={parts} />
          <Field
            state={state}
            name={`partModel${i}`}
            label={<Unseen n={i}>Model or size</Unseen>}
            maxLength={120}
            list="part-models"
          />
          <Field
            state={state}
            name={`partCount${i}`}
            label={<Unseen n={i}>How many</Unseen>}
            inputMode="numeric"
            short
          />
          <Field
            state={state}
            name={`partWarranty${i}`}
            label={<Unseen n={i}>Warranty, months</Unseen>}
            inputMode="numeric"
            short
          />
        </div>
      ))}
    </Section>
  )
}

/** A label that reads the same in every row, and is told apart by those who only hear it. */
function Unseen({ n, children }: { n: number; children: string }) {
  return (
    <>
      {children} <span className="unseen">of part {n}</span>
    </>
  )
}
