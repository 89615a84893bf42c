import { aboutWords } from '@/app/ui/place/place-photos'
import type { PlacePhoto } from '@/lib/domain/logbook/place-record'
import type { Picture } from '../store'
import { PhotoPicture } from './photo-picture'

type Props = { photos: readonly PlacePhoto[]; pictures: readonly Picture[] }

/** Photos of the marks as they were taken along; one that is not here is named. */
export function PlacePictures({ photos, pictures }: Props) {
  return (
    <ul className="place-photos">
      {photos.map((photo) => {
        const picture = pictures.find(({ id }) => id === photo.id)
        return (
          <li key={photo.id}>
            <figure>
              {picture ? <PhotoPicture photo={picture} words={aboutWords(photo)} /> : null}
              <figcaption>
                {aboutWords(photo)}
                {picture ? '' : ' (this photo is not on this phone)'}
              </figcaption>
            </figure>
          </li>
        )
      })}
    </ul>
  )
}
