import { useState } from 'react'
import { forget } from '../queue'
import type { QueuedPhoto } from '../store'
import { PhotoPicture } from './photo-picture'
import { WhyNotSent } from './state-of'

/** Photos whose visit has been sent, and which are still to follow or were refused. */
export function LeftPhotos({ photos }: { photos: readonly QueuedPhoto[] }) {
  return (
    <>
      {photos.map((photo) => (
        <LeftPhoto key={photo.id} photo={photo} />
      ))}
    </>
  )
}

function LeftPhoto({ photo }: { photo: QueuedPhoto }) {
  const [sure, setSure] = useState(false)
  return (
    <article className="sheet stack-tight">
      <h3>Photo {photo.name}</h3>
      <PhotoPicture photo={photo} words={`Photo ${photo.name}`} />
      <p>Saved on this phone. Its visit has been sent; the photo follows.</p>
      <WhyNotSent of={photo} />
      <p className="row">
        {sure ? (
          <button type="button" className="button button-quiet" onClick={() => forget(photo.id)}>
            Yes, delete this photo
          </button>
        ) : (
          <button type="button" className="button button-quiet" onClick={() => setSure(true)}>
            Delete
          </button>
        )}
      </p>
    </article>
  )
}
