import type { InputHTMLAttributes, ReactNode } from 'react'
import type { FormState } from '@/lib/forms/form'

/** What every kind of field is told. `prefix` keeps ids apart where two forms share a page. */
export type FieldProps = {
  state: FormState
  name: string
  label: ReactNode
  hint?: ReactNode
  /** Shown until something was typed. */
  initial?: string
  prefix?: string
}

/** The id of a field, to which its label, hint, error and the summary above the form point. */
export const fieldId = (name: string, prefix = '') => `${prefix}${name}`

type Given = Pick<
  InputHTMLAttributes<HTMLInputElement>,
  | 'type'
  | 'inputMode'
  | 'autoComplete'
  | 'maxLength'
  | 'spellCheck'
  | 'autoCapitalize'
  | 'placeholder'
  | 'list'
>

/** A line of text with its label, hint and error. What was typed comes back with the errors. */
export function Field({ unit, short, ...props }: FieldProps & Given & { unit?: ReactNode; short?: boolean }) {
  const { state, name, label, hint, initial, prefix, ...given } = props
  const input = (
    <input
      {...tied(props)}
      type="text"
      {...given}
      className={short ? 'input input-short' : 'input'}
      defaultValue={state.typed[name] ?? initial ?? ''}
    />
  )
  return (
    <Frame {...{ state, name, label, hint, prefix }}>
      {unit ? (
        <span className="with-unit">
          {input}
          <span>{unit}</span>
        </span>
      ) : (
        input
      )}
    </Frame>
  )
}

/** Several lines of text. */
export function TextArea(props: FieldProps & { rows?: number }) {
  const { state, name, initial, rows } = props
  return (
    <Frame {...props}>
      <textarea
        {...tied(props)}
        className="input"
        rows={rows ?? 4}
        defaultValue={state.typed[name] ?? initial ?? ''}
      />
    </Frame>
  )
}

export type Option = { value: string; label: string }

/** One of many. */
export function SelectField(props: FieldProps & { options: readonly Option[] }) {
  const { state, name, initial, options } = props
  const chosen = state.typed[name] ?? initial ?? ''
  return (
    <Frame {...props}>
      {/* React keeps the choice of an earlier answer when a form is shown again; the key starts it afresh. */}
      <select key={chosen} {...tied(props)} className="input" defaultValue={chosen}>
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.label}
          </option>
        ))}
      </select>
    </Frame>
  )
}

/** One of few, all in sight. */
export function Choices(props: FieldProps & { options: readonly Option[] }) {
  const { state, name, label, hint, initial, options, prefix } = props
  const id = fieldId(name, prefix)
  const chosen = state.typed[name] ?? initial
  const error = state.errors[name]
  return (
    <fieldset className={error ? 'field field-wrong' : 'field'} aria-describedby={describedBy(props)}>
      <legend>{label}</legend>
      <Below {...{ id, hint, error }} />
      {options.map((option, i) => (
        <label className="choice" key={`${option.value}-${chosen === option.value}`}>
          <input
            type="radio"
            id={i === 0 ? id : `${id}-${option.value}`}
            name={name}
            value={option.value}
            defaultChecked={chosen === option.value}
          />
          <span>{option.label}</span>
        </label>
      ))}
    </fieldset>
  )
}

function Frame({ state, name, label, hint, prefix, children }: FieldProps & { children: ReactNode }) {
  const id = fieldId(name, prefix)
  const error = state.errors[name]
  return (
    <div className={error ? 'field field-wrong' : 'field'}>
      <label className="label" htmlFor={id}>
        {label}
      </label>
      <Below {...{ id, hint, error }} />
      {children}
    </div>
  )
}

/** Hint and error, in this order, between the label and the field. */
function Below({ id, hint, error }: { id: string; hint?: ReactNode; error?: string }) {
  return (
    <>
      {hint ? (
        <span className="hint" id={`${id}-hint`}>
          {hint}
        </span>
      ) : null}
      {error ? (
        <span className="error" id={`${id}-error`}>
          <span className="unseen">Error: </span>
          {error}
        </span>
      ) : null}
    </>
  )
}

function tied(props: FieldProps) {
  const { state, name, prefix } = props
  return {
    id: fieldId(name, prefix),
    name,
    'aria-describedby': describedBy(props),
    'aria-invalid': state.errors[name] ? true : undefined,
  }
}

function describedBy({ state, name, hint, prefix }: FieldProps): string | undefined {
  const id = fieldId(name, prefix)
  const ids = [hint ? `${id}-hint` : null, state.errors[name] ? `${id}-error` : null].filter(Boolean)
  return ids.length > 0 ? ids.join(' ') : undefined
}
