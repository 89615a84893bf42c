import type { PlacePhoto } from '@/lib/domain/logbook/place-record'
import { paths } from '@/lib/paths'

/** Photos of the marks, the sketch and the way in, each with what it shows. */
export function PlacePhotos({ photos }: { photos: readonly PlacePhoto[] }) {
  if (photos.length === 0) return null
  return (
    <ul className="place-photos">
      {photos.map((photo) => (
        <li key={photo.id}>
          <figure>
            <a href={paths.attachment(photo.id)}>
              {/* biome-ignore lint/performance/noImgElement: a private file behind sign-in; nothing may cache or resize it */}
              <img className="paper" src={paths.attachment(photo.id)} alt={aboutWords(photo)} />
            </a>
            <figcaption>{aboutWords(photo)}</figcaption>
          </figure>
        </li>
      ))}
    </ul>
  )
}

export const aboutWords = ({ about }: PlacePhoto): string => {
  if (about === null) return 'Photo of the place'
  if (about === 'sketch') return 'The sketch'
  return about === 'way in' ? 'The way in' : about === 'head' ? 'The head' : `The mark: ${about}`
}
