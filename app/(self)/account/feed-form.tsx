'use client'

import { useActionState } from 'react'
import { SubmitButton } from '@/app/ui/submit-button'
import { makeFeedAddress } from './mail-actions'

/** Makes the address and shows it, this once. */
export function FeedForm({ renew }: { renew: boolean }) {
  const [address, make] = useActionState(makeFeedAddress, null)
  return (
    <form action={make} className="stack-tight">
      <div role="status">
        {address === null ? null : (
          <>
            <p>Your calendar address. Copy it into your calendar program now: it is not shown again.</p>
            <p>
              <code className="feed-address">{address}</code>
            </p>
          </>
        )}
      </div>
      <div>
        <SubmitButton quiet busy="Making…">
          {renew || address !== null ? 'Make a new address (the old one ends)' : 'Make a calendar address'}
        </SubmitButton>
      </div>
    </form>
  )
}
