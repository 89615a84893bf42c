import type { Asking } from './with-questions'

/** The question that an odd value raised, with the answers to choose from; nothing where none was. */
export function AskedAgain({ state, field }: { state: Asking; field: string }) {
  const question = state.questions[field]
  if (!question) return null
  return (
    <fieldset className="field question">
      <legend>{question.message}</legend>
      <p className="hint">Mend the number above, or choose:</p>
      {question.choices.map(({ value, label }) => (
        <label className="choice" key={value}>
          <input type="radio" name={`answer:${field}`} value={value} />
          <span>{label}</span>
        </label>
      ))}
    </fieldset>
  )
}
