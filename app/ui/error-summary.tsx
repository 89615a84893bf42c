'use client'

import { useEffect, useRef } from 'react'
import type { FormState } from '@/lib/forms/form'
import { fieldId } from './field'

/**
 * What stopped a form, above it: takes the focus, and each line leads to its field. Without script the
 * same text stands there on the page that comes back.
 */
export function ErrorSummary({ state, prefix }: { state: FormState; prefix?: string }) {
  const box = useRef<HTMLDivElement>(null)
  const errors = Object.entries(state.errors)

  // Each answer of the server is a new state: the focus moves again even where the sentences are the same.
  useEffect(() => {
    if (!isWrong(state)) return
    box.current?.focus()
    const title = document.title
    document.title = `Error: ${title}`
    return () => {
      document.title = title
    }
  }, [state])

  if (!isWrong(state)) return null
  return (
    <div
      className="error-summary"
      ref={box}
      tabIndex={-1}
      role="alert"
      aria-labelledby={`${prefix ?? ''}problem`}
    >
      <h2 id={`${prefix ?? ''}problem`}>There is a problem</h2>
      {state.message ? <p>{state.message}</p> : null}
      {errors.length > 0 ? (
        <ul>
          {errors.map(([name, sentence]) => (
            <li key={name}>
              <a href={`#${fieldId(name, prefix)}`}>{sentence}</a>
            </li>
          ))}
        </ul>
      ) : null}
    </div>
  )
}

const isWrong = (state: FormState) => Object.keys(state.errors).length > 0 || state.message !== undefined
