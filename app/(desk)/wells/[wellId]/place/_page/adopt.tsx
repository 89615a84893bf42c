import { type Fix, sayStep } from '@/lib/domain/place'
import { formatNumber, type UnitSystem } from '@/lib/domain/quantity'
import { offeredPosition, type PlaceSource, type WellPlace } from '@/lib/records/place'
import { takeOver } from '../actions'

type Props = { place: WellPlace; mayEdit: boolean; units: UnitSystem }

const FROM: Record<PlaceSource, string> = {
  fix: 'The position taken at the head',
  ties: 'The position that the ties give',
}

/** Offers the measured coordinate to the register; nothing is changed unless somebody says so. */
export function Adopt({ place, mayEdit, units }: Props) {
  const offers = (['ties', 'fix'] as const).flatMap((source) => {
    const position = offeredPosition(place, source)
    return position ? [{ source, position }] : []
  })
  if (offers.length === 0) return null
  const { latitude, longitude } = place.well
  return (
    <div className="sheet stack-tight">
      <p>
        {latitude === null || longitude === null
          ? 'The register has no coordinate of this well.'
          : `The register says ${say({ latitude, longitude, accuracyM: null }, units)}.`}
      </p>
      {offers.map(({ source, position }) => (
        <form key={source} action={takeOver} className="row">
          <input type="hidden" name="wellId" value={place.well.id} />
          <input type="hidden" name="version" value={place.well.version} />
          <input type="hidden" name="source" value={source} />
          <span>
            {FROM[source]}: {say(position, units)}
          </span>
          {mayEdit ? (
            <button type="submit" className="button button-quiet">
              Put it into the register<span className="unseen">, {FROM[source].toLowerCase()}</span>
            </button>
          ) : (
            <span className="muted">An installer can put it into the register.</span>
          )}
        </form>
      ))}
    </div>
  )
}

function say({ latitude, longitude, accuracyM }: Fix, units: UnitSystem): string {
  const place = `${formatNumber(latitude, 5, 6)}, ${formatNumber(longitude, 5, 6)}`
  return accuracyM === null ? place : `${place} (±${sayStep(accuracyM, units)})`
}
