import { useState } from 'react'
import { forget, sendAgain } from '../queue'
import { sendAll } from '../send'
import type { QueuedPhoto, QueuedVisit } from '../store'
import { saidOf, titleOf } from '../words-of-records'
import { PhotoPicture } from './photo-picture'
import { StateOf } from './state-of'

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
  const { id } = visit
  const again = async () => {
    await sendAgain(id)
    await sendAll(user, true)
  }
  return (
    <article className="sheet stack-tight" aria-labelledby={`visit-${id}`}>
      <h3 id={`visit-${id}`}>{titleOf(visit)}</h3>
      <StateOf visit={visit} />
      <dl className="unsent-said">
        {saidOf(visit).map(({ field, what, text }) => (
          <div key={field}>
            <dt>{what}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      <div className="row">
        {photos.map((photo, i) => (
          <PhotoPicture key={photo.id} photo={photo} words={`Photo ${i + 1}: ${titleOf(visit)}`} />
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
              Yes, delete the {titleOf(visit).replace(/^./, (letter) => letter.toLowerCase())}
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
