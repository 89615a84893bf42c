import { Status } from '@/app/ui/status'
import { clock } from '../keep-visit'
import type { QueuedVisit } from '../store'
import { words } from '../take-along'

/** How a record on the phone stands, in the same words everywhere; `why` it was not sent stands beside it. */
export function StateOf({ visit: { state, savedAt, sentAt } }: { visit: QueuedVisit }) {
  switch (state) {
    case 'sending':
      return <Status tone="note">Sending</Status>
    case 'sent':
      return <Status tone="calm">Sent at {clock(new Date(sentAt ?? savedAt))}</Status>
    case 'refused':
      return <Status tone="watch">Could not send: it needs a look</Status>
    case 'saved':
      return <Status tone="note">Saved on this phone, {words(savedAt)}</Status>
  }
}

/** Why a record was not sent: one sentence in the line, several in a list; nothing where nothing went wrong. */
export function WhyNotSent({ why }: Pick<QueuedVisit, 'why'>) {
  if (why.length === 0) return null
  const sentences = why.map(({ wrong, todo }) =>
    [ended(wrong), todo === '' ? '' : ended(todo)].join(' ').trim(),
  )
  return (
    <div>
      <p>Could not send because:</p>
      <ul>
        {sentences.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </div>
  )
}

/** Sentences of the forms end in a full stop, or not. */
const ended = (words: string) => (/[.!?…]$/.test(words) ? words : `${words}.`)
