'use client'

import { type KeyboardEvent, useEffect, useRef } from 'react'
import type { FormState } from '@/lib/forms/form'
import {
  elapsedText,
  type KeptReading,
  readingsToSend,
  type TestAct,
  type TestDraft,
} from '@/lib/forms/test/draft'

type Props = {
  draft: TestDraft
  state: FormState
  /** Symbol of the unit that a bare level is taken in. */
  unit: string
  act: (act: TestAct) => void
}

/** The readings taken so far, newest first under the thumb; each can be completed, corrected or struck. */
export function ReadingRows({ draft, state, unit, act }: Props) {
  const asked = useNewest(draft)
  const rowOf = new Map(readingsToSend(draft).map((reading, i) => [reading.id, i + 1]))
  return (
    <div className="stack-tight">
      <ol className="plain-list stack-tight readings" reversed>
        {[...draft.readings]
          .reverse()
          .map((reading) =>
            reading.struck ? (
              <Struck key={reading.id} {...{ draft, reading, act }} />
            ) : (
              <Row
                key={reading.id}
                {...{ draft, reading, state, unit, act }}
                row={rowOf.get(reading.id) ?? draft.readings.length + reading.id}
                focus={asked === reading.id}
              />
            ),
          )}
      </ol>
      <button type="button" className="button button-quiet" onClick={() => act({ type: 'row' })}>
        Add a reading by hand
      </button>
    </div>
  )
}

type RowProps = Props & { reading: KeptReading; row: number; focus: boolean }

function Row({ draft, reading, state, unit, act, row, focus }: RowProps) {
  const { id } = reading
  const asked = useRef<HTMLInputElement>(null)
  useEffect(() => {
    if (focus) asked.current?.focus()
  }, [focus])
  const byHand = reading.atMs === null
  const when = elapsedText(draft, reading)
  const time = state.errors[`elapsed${row}`]
  const missing = state.errors[`level${row}`]
  const wrong = [time, missing].filter(Boolean).join(' ')
  return (
    <li className={wrong ? 'reading field-wrong' : 'reading'}>
      <label className="field">
        <span className="label">
          Time (min) <span className="unseen">of reading {row}</span>
        </span>
        <input
          className="input"
          ref={byHand ? asked : null}
          id={`elapsed${row}`}
          name={`elapsed${row}`}
          value={when}
          autoComplete="off"
          aria-invalid={time ? true : undefined}
          aria-describedby={wrong ? `wrong${row}` : undefined}
          onChange={(event) => act({ type: 'elapsed', id, text: event.target.value })}
          onKeyDown={noSending}
        />
      </label>
      <label className="field">
        <span className="label">
          Level ({unit}) <span className="unseen">of reading {row}</span>
        </span>
        <input
          className="input reading-level"
          ref={byHand ? null : asked}
          id={`level${row}`}
          name={`level${row}`}
          value={reading.level}
          inputMode={unit === 'ft' ? 'text' : 'decimal'}
          enterKeyHint="done"
          autoComplete="off"
          aria-invalid={missing ? true : undefined}
          aria-describedby={wrong ? `wrong${row}` : undefined}
          onChange={(event) => act({ type: 'level', id, text: event.target.value })}
          onKeyDown={noSending}
        />
      </label>
      <button type="button" className="button button-quiet" onClick={() => act({ type: 'strike', id })}>
        Strike
        <span className="unseen">
          {' '}
          reading {row}
          {when ? ` at ${when}` : ''}
        </span>
      </button>
      {wrong ? (
        <p className="error reading-error" id={`wrong${row}`}>
          {wrong}
        </p>
      ) : null}
    </li>
  )
}

function Struck({ draft, reading, act }: Pick<RowProps, 'draft' | 'reading' | 'act'>) {
  const when = elapsedText(draft, reading) || 'without a time'
  return (
    <li className="row">
      <s className="muted">
        {when}
        {reading.level ? `, level ${reading.level}` : ''}
      </s>
      <button
        type="button"
        className="button button-plain"
        onClick={() => act({ type: 'put-back', id: reading.id })}
      >
        Put back<span className="unseen"> the reading {when}</span>
      </button>
    </li>
  )
}

/** The id of the reading that was tapped last on this opening of the page: its level is what is asked for next. */
function useNewest(draft: TestDraft): number | null {
  const newest = draft.readings.at(-1)?.id ?? null
  const first = useRef(newest)
  return newest === first.current ? null : newest
}

/** "Enter" on a phone's keyboard closes the keyboard; it must not send a test of one reading. */
function noSending(event: KeyboardEvent<HTMLInputElement>) {
  if (event.key !== 'Enter') return
  event.preventDefault()
  event.currentTarget.blur()
}
