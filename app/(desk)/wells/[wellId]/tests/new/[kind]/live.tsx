'use client'

import { type ComponentType, useEffect, useState } from 'react'
import type { LiveProps } from './live-result'

/**
 * Loads the reckoning after the page has come alive, while there is signal: the form itself does not wait for it, and
 * does without where it cannot come.
 */
export function Live(props: LiveProps) {
  const [state, setState] = useState<{ View: ComponentType<LiveProps> } | 'loading' | 'failed'>('loading')
  useEffect(() => {
    let left = false
    const load = () => {
      import('./live-result').then(
        ({ LiveResult }) => {
          if (!left) setState({ View: LiveResult })
        },
        // No signal: said below, and tried again when it returns.
        () => {
          if (!left) setState('failed')
        },
      )
    }
    load()
    window.addEventListener('online', load)
    return () => {
      left = true
      window.removeEventListener('online', load)
    }
  }, [])
  return (
    <section className="stack-tight" aria-labelledby="so-far">
      <h2 id="so-far">So far</h2>
      {state === 'loading' ? <p className="muted">Loading …</p> : null}
      {state === 'failed' ? (
        <p>The result cannot be worked out without a connection. The readings are not touched by that.</p>
      ) : null}
      {typeof state === 'object' ? <state.View {...props} /> : null}
    </section>
  )
}
