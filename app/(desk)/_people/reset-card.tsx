'use client'

import { useActionState } from 'react'
import { PrintButton } from '@/app/ui/print-button'
import { SubmitButton } from '@/app/ui/submit-button'
import { type CardState, makeCardForPassword } from './actions'

const FRESH: CardState = { typed: {}, errors: {} }

/** A card with which somebody who forgot their password and reads no email chooses a new one. */
export function ResetCard({ id, name }: { id: string; name: string }) {
  const [state, action] = useActionState(makeCardForPassword, FRESH)
  return (
    <details className="stack-tight" open={state.card !== undefined || undefined}>
      <summary>Card for a new password for {name}</summary>
      <form className="form no-print" action={action}>
        <p className="text">
          Make sure that it is they who ask. Whoever holds the card chooses their password; you never know it.
        </p>
        <input type="hidden" name="id" value={id} />
        <SubmitButton quiet>Make the card</SubmitButton>
      </form>
      {state.card ? (
        <article className="sheet stack paper-card" aria-label="The card">
          <h3>A new password for {state.card.name}</h3>
          <ol>
            <li>
              Open <strong className="unbroken">{state.card.site}</strong>
            </li>
            <li>
              Type this code: <strong className="code-large">{state.card.code}</strong>
            </li>
            <li>Choose a new password, and sign in with it.</li>
          </ol>
          <p>The code works once, until {state.card.untilDay}. It is shown only now.</p>
          <div className="no-print">
            <PrintButton />
          </div>
        </article>
      ) : null}
    </details>
  )
}
