import type { ReactNode } from 'react'
import { Status } from '@/app/ui/status'
import { clock } from '../keep-visit'
import type { QueuedPhoto, QueuedVisit } from '../store'
import { words } from '../take-along'

/** How a record on the phone stands, in the same words everywhere, and why it was not sent. */
export function StateOf({ visit }: { visit: QueuedVisit }) {
  return (
    <>
      <Standing visit={visit} />
      {visit.state === 'sent' ? null : <WhyNotSent of={visit} />}
    </>
  )
}

function Standing({ visit: { state, savedAt, sentAt } }: { visit: QueuedVisit }) {
  switch (state) {
    case 'sending':
      return <Said status={<Status tone="note">Sending</Status>} savedAt={savedAt} />
    case 'sent':
      return <Said status={<Status tone="calm">Sent at {clock(new Date(sentAt ?? savedAt))}</Status>} />
    case 'refused':
      return <Said status={<Status tone="watch">Needs a look</Status>} savedAt={savedAt} />
    case 'saved':
      return <Said status={<Status tone="note">Saved on this phone, {words(savedAt)}</Status>} />
  }
}

/** The state by word and shape, and under it that the record is still here, where the state does not say so. */
function Said({ status, savedAt }: { status: ReactNode; savedAt?: string }) {
  return (
    <div>
      <p>{status}</p>
      {savedAt ? <p className="muted">Saved on this phone, {words(savedAt)}</p> : null}
    </div>
  )
}

/** What stood in the way of the last sending; nothing where nothing went wrong. */
export function WhyNotSent({ of: { why } }: { of: Pick<QueuedVisit | QueuedPhoto, 'why'> }) {
  if (why.length === 0) return null
  const [first, ...rest] = why.map(({ wrong, todo }) => [wrong, todo].filter(Boolean).map(ended).join(' '))
  if (rest.length === 0) return <p>Could not send because: {first}</p>
  return (
    <div>
      <p>Could not send because:</p>
      <ul>
        {why.map(({ field, wrong, todo }) => (
          <li key={`${field}${wrong}`}>{[wrong, todo].filter(Boolean).map(ended).join(' ')}</li>
        ))}
      </ul>
    </div>
  )
}

/** Sentences of the forms end in a full stop, or not. */
const ended = (sentence: string) => (/[.!?…]$/.test(sentence) ? sentence : `${sentence}.`)
