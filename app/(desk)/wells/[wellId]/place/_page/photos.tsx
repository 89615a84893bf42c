import { PlacePhotos } from '@/app/ui/place/place-photos'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { WellPlace } from '@/lib/records/place'
import { attachPlacePhoto } from '../actions'
import { PhotoForm } from './photo-form'

type Props = { place: WellPlace; entryId: string; units: UnitSystem }

/** The photos of the measurement that counts, and a place to add one. */
export function Photos({ place, entryId }: Props) {
  const marks = place.measured?.fact.marks.list ?? []
  return (
    <section className="stack" aria-labelledby="photos">
      <h2 id="photos">Photos</h2>
      {place.photos.length === 0 ? (
        <p className="muted">
          None yet. One of each mark, one of the way in and one of the sketch help most.
        </p>
      ) : null}
      <PlacePhotos photos={place.photos} />
      <div className="sheet no-print">
        <PhotoForm
          action={attachPlacePhoto.bind(null, place.well.id, entryId)}
          abouts={[
            { value: '', label: 'The place' },
            ...marks.map(({ name }) => ({ value: name, label: `The mark: ${name}` })),
            { value: 'head', label: 'The head' },
            { value: 'way in', label: 'The way in' },
            { value: 'sketch', label: 'The sketch' },
          ]}
        />
      </div>
    </section>
  )
}
