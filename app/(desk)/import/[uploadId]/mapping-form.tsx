import { unitSymbol } from '@/lib/domain/quantity'
import type { ImportQuery } from '@/lib/exchange/import-query'
import type { Mapping } from '@/lib/exchange/mapping'
import type { Question } from '@/lib/exchange/questions'
import type { Table } from '@/lib/exchange/table'
import { fieldOptions, unitOptions } from './options'

type Props = {
  table: Table
  query: ImportQuery
  mapping: Mapping
  samples: readonly string[][]
  questions: readonly Question[]
}

/** Every column with three of its values and what it is; units and the order of dates are asked, never guessed. */
export function MappingForm({ table, query, mapping, samples, questions }: Props) {
  const general = questions.filter((question) => question.kind === 'column' || question.kind === 'mapping')
  return (
    <form className="form import-mapping" method="get">
      <input type="hidden" name="kind" value={query.kind} />
      {query.choice.sheet ? <input type="hidden" name="sheet" value={query.choice.sheet} /> : null}
      {query.choice.headerLine ? <input type="hidden" name="header" value={query.choice.headerLine} /> : null}
      <input type="hidden" name="check" value="yes" />
      {questions.length > 0 ? (
        <div className="error-summary" role="status">
          <h2>To be answered first</h2>
          <ul>
            {questions.map((question) => (
              <li key={question.message}>
                {'column' in question ? (
                  <a href={`#f${question.column}`}>{question.message}</a>
                ) : (
                  question.message
                )}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
      {general.length > 0 ? (
        <p className="hint">Choose the column for each of these in the list below.</p>
      ) : null}
      <ol className="plain-list stack">
        {table.header.map((heading, column) => (
          <li key={heading} className="sheet import-column">
            <ColumnFields
              heading={heading}
              column={column}
              table={table}
              query={query}
              use={mapping[column] ?? 'keep'}
              values={samples[column] ?? []}
              question={questions.find((q) => 'column' in q && q.column === column)}
            />
          </li>
        ))}
      </ol>
      <NumberLocale query={query} asked={questions.some((question) => question.kind === 'number-locale')} />
      <fieldset className="field">
        <legend>How to go about it</legend>
        <label className="choice">
          <input type="checkbox" name="missing" value="yes" defaultChecked={query.createMissingWells} />
          <span>Add wells that are not in the register yet</span>
        </label>
        <label className="choice">
          <input type="checkbox" name="update" value="yes" defaultChecked={query.updateExisting} />
          <span>Where the file and the register differ, take the file&apos;s values</span>
        </label>
      </fieldset>
      <button type="submit" className="button">
        Check the file
      </button>
    </form>
  )
}

type ColumnProps = {
  heading: string
  column: number
  table: Table
  query: ImportQuery
  use: Mapping[number]
  values: readonly string[]
  question: Question | undefined
}

function ColumnFields({ heading, column, table, query, use, values, question }: ColumnProps) {
  const field = typeof use === 'string' ? use : use?.field
  const unit = typeof use === 'object' && use.unit !== undefined ? use.unit : ''
  const order = typeof use === 'object' ? (use.dateOrder ?? '') : ''
  const units = unitOptions(query.kind, field ?? 'keep')
  const dates = question?.kind === 'date-order' || order !== ''
  return (
    <>
      <div>
        <label className="label" htmlFor={`f${column}`}>
          {heading}
        </label>
        <span className="hint import-samples">{values.length > 0 ? values.join(' · ') : 'no values'}</span>
        {question ? <span className="error">{question.message}</span> : null}
      </div>
      <select className="input" id={`f${column}`} name={`f${column}`} defaultValue={field ?? 'keep'}>
        {fieldOptions(query.kind).map((group) => (
          <optgroup key={group.label} label={group.label}>
            {group.options.map((option) => (
              <option key={option.value} value={option.value}>
                {option.label}
              </option>
            ))}
          </optgroup>
        ))}
      </select>
      {units.length > 0 ? (
        <label className="field">
          <span className="hint">
            Unit<span className="unseen"> of {heading}</span>
          </span>
          <select
            className="input"
            name={`u${column}`}
            defaultValue={typeof unit === 'object' ? `col:${unit.fromColumn}` : unit}
          >
            <option value="">not said yet</option>
            {units.map((one) => (
              <option key={one} value={one}>
                {unitSymbol(one) || one}
              </option>
            ))}
            {table.header.map((other, i) =>
              i === column ? null : (
                <option key={other} value={`col:${i}`}>
                  stands in column “{other}”
                </option>
              ),
            )}
          </select>
        </label>
      ) : null}
      {dates ? (
        <label className="field">
          <span className="hint">
            Order<span className="unseen"> of the dates in {heading}</span>
          </span>
          <select className="input" name={`d${column}`} defaultValue={order}>
            <option value="">not said yet</option>
            <option value="dmy">day, month, year</option>
            <option value="mdy">month, day, year</option>
            <option value="ymd">year, month, day</option>
          </select>
        </label>
      ) : null}
    </>
  )
}

function NumberLocale({ query, asked }: { query: ImportQuery; asked: boolean }) {
  const { locale } = query.answers
  if (!asked && locale === null) return null
  return (
    <fieldset className="field">
      <legend>How are decimals written in this file?</legend>
      <label className="choice">
        <input type="radio" name="locale" value="en" defaultChecked={locale === 'en'} />
        <span>with a point: 1,200.5</span>
      </label>
      <label className="choice">
        <input type="radio" name="locale" value="comma" defaultChecked={locale === 'comma'} />
        <span>with a comma: 1.200,5</span>
      </label>
    </fieldset>
  )
}
