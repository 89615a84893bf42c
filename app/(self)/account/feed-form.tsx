'use client'

import { useActionState } from 'react'
import { SubmitButton } from '@/app/ui/submit-button'
import { makeFeedAddress } from './mail-actions'

/** Makes the address and shows it, this once. */
export function FeedForm({ renew }: { renew: boolean }) {
  const [address, make] = useActionState(makeFeedAddress, undefined)
  return (
    <form action={make} className="stack-tight">
      <div role="status">
        {address === null ? (
          <p>It is more than a day since you signed in. Sign out, sign in, and try again.</p>
        ) : null}
        {address ? (
          <>
            <p>Your calendar address. Copy it into your calendar program now: it is not shown again.</p>
            <p>
              <code className="feed-address">{address}</code>
            </p>
          </>
        ) : null}
      </div>
      <div>
        <SubmitButton quiet busy="Making…">
          {renew || address ? 'Make a new address (the old one ends)' : 'Make a calendar address'}
        </SubmitButton>
      </div>
    </form>
  )
}
