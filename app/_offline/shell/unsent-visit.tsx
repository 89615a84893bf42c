import { useState } from 'react'
import { Status } from '@/app/ui/status'
import { forget, sendAgain } from '../queue'
import { sendAll } from '../send'
import type { ItemState, QueuedPhoto, QueuedVisit } from '../store'
import { words } from '../take-along'
import { saidOf } from '../words-of-fields'
import { PhotoPicture } from './photo-picture'

/** One visit that waits: what was typed, its photos, how it stands and why, and what can be done about it. */
export function UnsentVisit({
  visit,
  photos,
  user,
}: {
  visit: QueuedVisit
  photos: readonly QueuedPhoto[]
  user: string
}) {
  const [sure, setSure] = useState(false)
  const { id, label, savedAt, typed, why } = visit
  const again = async () => {
    await sendAgain(id)
    await sendAll(user, true)
  }
  return (
    <article className="sheet stack-tight" aria-labelledby={`visit-${id}`}>
      <h3 id={`visit-${id}`}>Visit to {label}</h3>
      <p>
        <StateOf state={visit.state} tried={visit.tries > 0} />{' '}
        <span className="muted">at {words(savedAt)}</span>
      </p>
      {why.length > 0 ? (
        <ul>
          {why.map(({ field, wrong, todo }) => (
            <li key={`${field}${wrong}`}>
              {wrong}. {todo}
              {todo === '' ? '' : '.'}
            </li>
          ))}
        </ul>
      ) : null}
      <dl className="unsent-said">
        {saidOf(typed).map(({ field, what, text }) => (
          <div key={field}>
            <dt>{what}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      <div className="row">
        {photos.map((photo, i) => (
          <PhotoPicture key={photo.id} photo={photo} words={`Photo ${i + 1} of the visit to ${label}`} />
        ))}
      </div>
      <p className="row">
        <a className="button" href={`/unsent?record=${id}`}>
          Open and mend
        </a>
        <button type="button" className="button button-quiet" onClick={again}>
          Send this one now
        </button>
        {sure ? (
          <>
            <button type="button" className="button button-quiet" onClick={() => forget(id)}>
              Yes, delete the visit to {label}
            </button>
            <button type="button" className="button button-quiet" onClick={() => setSure(false)}>
              Keep it
            </button>
          </>
        ) : (
          <button type="button" className="button button-quiet" onClick={() => setSure(true)}>
            Delete
          </button>
        )}
      </p>
    </article>
  )
}

function StateOf({ state, tried }: { state: ItemState; tried: boolean }) {
  switch (state) {
    case 'sending':
      return <Status tone="note">Sending</Status>
    case 'refused':
      return <Status tone="watch">Could not send: needs a look</Status>
    case 'sent':
      return <Status tone="calm">Sent</Status>
    case 'saved':
      return (
        <Status tone="note">{tried ? 'Saved on this phone, not sent yet' : 'Saved on this phone'}</Status>
      )
  }
}
