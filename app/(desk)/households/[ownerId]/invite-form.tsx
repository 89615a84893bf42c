'use client'

import { useActionState } from 'react'
import { DoneNote } from '@/app/ui/done-note'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Field } from '@/app/ui/field'
import { PrintButton } from '@/app/ui/print-button'
import { QrPicture } from '@/app/ui/qr-picture'
import { SubmitButton } from '@/app/ui/submit-button'
import { type InviteState, makeCard } from './actions'

const FRESH: InviteState = { typed: {}, errors: {} }

type Props = { ownerId: string; household: string; outfit: { name: string; contact: string } }

/** Makes a card with a code, to print and hand over, or to send as a link. */
export function InviteForm({ ownerId, household, outfit }: Props) {
  const [state, action] = useActionState(makeCard, FRESH)
  return (
    <>
      <form className="form no-print" action={action} noValidate>
        <ErrorSummary state={state} />
        <DoneNote state={state} />
        <input type="hidden" name="ownerId" value={ownerId} />
        <Field
          state={state}
          name="forName"
          label="Who it is for"
          hint="One person, one card. Several people of a household get one each"
        />
        <Field
          state={state}
          name="email"
          label="Email address (optional)"
          hint="The link goes there too. Blank: print the card and hand it over"
          type="email"
          autoComplete="off"
          spellCheck={false}
        />
        <SubmitButton>Make the card</SubmitButton>
      </form>
      {state.card ? <Card card={state.card} household={household} outfit={outfit} /> : null}
    </>
  )
}

type CardProps = { card: NonNullable<InviteState['card']> } & Omit<Props, 'ownerId'>

function Card({ card, household, outfit }: CardProps) {
  return (
    <article className="sheet stack paper-card" aria-label="The card">
      <div>
        <h3>Your well, on your phone</h3>
        <p>
          For {card.forName}, {household}
        </p>
      </div>
      <QrPicture path={card.qr} label="Square code that opens the page, with the code of this card" />
      <ol>
        <li>
          Point the camera of your phone at the square above. Or open{' '}
          <strong className="unbroken">{card.site}</strong>
        </li>
        <li>
          This is your code, if you are asked for it: <strong className="code-large">{card.code}</strong>
        </li>
        <li>Give your email address and choose a password. From then on you sign in with both.</li>
      </ol>
      <p>The code works once, for one person, until {card.untilDay}. Give it to nobody else.</p>
      {outfit.name || outfit.contact ? (
        <p>Questions: {[outfit.name, outfit.contact].filter(Boolean).join(', ')}</p>
      ) : null}
      <div className="no-print stack-tight">
        <p>
          Or send this link: <a href={card.link}>{card.link}</a>
        </p>
        <PrintButton />
      </div>
    </article>
  )
}
