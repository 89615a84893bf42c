import type { ReactNode } from 'react'
import { Status } from '@/app/ui/status'
import type { saySample } from '@/lib/domain/water/sample-words'

type Props = {
  /** Null where the sheet was withdrawn. */
  said: ReturnType<typeof saySample> | null
  withdrawn: string
  children: ReactNode
}

/** The verdict on a sheet: the word, what it means and what it does not. */
export function WhatItSays({ said, withdrawn, children }: Props) {
  return (
    <section className="sheet stack" aria-labelledby="verdict">
      <h2 id="verdict">What it says</h2>
      <p className="verdict">
        <Status tone={said ? said.tone : 'unsure'}>{said ? said.word : withdrawn}</Status>
      </p>
      {said ? (
        <>
          <p className="text">{said.means}</p>
          <h3>What it does not say</h3>
          <ul>
            {said.notMeant.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </>
      ) : null}
      {children}
    </section>
  )
}
