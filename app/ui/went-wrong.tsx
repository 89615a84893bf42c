'use client'

import { PageHead } from './page-head'

export type Wrong = { error: Error & { digest?: string }; retry: () => void }

/** What a person sees when the program failed: what they can do, and the mark by which the server's log knows it. */
export function WentWrong({ error, retry }: Wrong) {
  return (
    <>
      <PageHead title="Something went wrong" />
      <p className="text">
        What you were doing may not have been saved. Look whether it was, then try again. What was saved
        earlier is still there.
      </p>
      {error.digest ? <p className="muted small">Mark in the server’s log: {error.digest}</p> : null}
      <p>
        <button type="button" className="button" onClick={retry}>
          Try again
        </button>
      </p>
    </>
  )
}
