import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { measuredPlaces, placeFound } from '@/lib/domain/logbook/place-record'
import { daysShown, formatDay, formatNumber, type UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { WellPage } from '@/lib/records/wells'
import { VisitWords } from '../../../_rounds/visit-words'

type Props = {
  well: WellPage['well']
  owner: WellPage['owner']
  facts: readonly CurrentFact[]
  units: UnitSystem
}

/** What somebody on the way there needs: where, whom to call, how to get in, and when nobody does. */
export function Place({ well, owner, facts, units }: Props) {
  return (
    <section aria-labelledby="place" className="stack-tight">
      <h2 id="place">Place and owner</h2>
      <div className="sheet stack-tight">
        <p className="here">
          <Coordinate well={well} />
          <Contact owner={owner} />
        </p>
        <Measured well={well} facts={facts} units={units} />
        {well.access ? <p>Way in: {well.access}</p> : null}
        <VisitWords well={well} />
        {well.closedFrom && well.closedTo ? (
          <p>
            Closed every year from {dayOfYear(well.closedFrom, units)} to {dayOfYear(well.closedTo, units)}
            {well.closedWhy ? `: ${well.closedWhy}` : ''}.
          </p>
        ) : null}
        {well.notes ? <p>{well.notes}</p> : null}
      </div>
    </section>
  )
}

/** Whether the head was ever taped to marks, and what of that does not fit. */
function Measured({ well, facts, units }: Omit<Props, 'owner'>) {
  const latest = measuredPlaces(facts)[0]
  const { latitude, longitude } = well
  const register = latitude === null || longitude === null ? null : { latitude, longitude }
  const wrong =
    latest && placeFound(latest.fact, register, units).findings.find(({ kind }) => kind === 'wrong')
  return (
    <>
      <p className="here no-print">
        <Link href={paths.findWell(well.id)} prefetch={false}>
          Find the head
        </Link>
        <Link href={paths.wellPlace(well.id)} prefetch={false}>
          Ties, drawing and photos
        </Link>
        <Link href={paths.map({ wells: well.id })} prefetch={false}>
          On the map
        </Link>
      </p>
      <p>
        {latest
          ? `Place measured on ${showDay(latest.on, units)}, with ${latest.fact.ties.length === 1 ? 'one tie' : `${latest.fact.ties.length} ties`}.`
          : 'The place was never measured: do so while the head is in sight.'}
      </p>
      {wrong ? (
        <p>
          <Status tone="alarm">Does not fit</Status> {wrong.says}
        </p>
      ) : null}
    </>
  )
}

function Coordinate({ well }: Pick<Props, 'well'>) {
  const { latitude, longitude } = well
  if (latitude === null || longitude === null) return <span className="muted">No coordinate is known.</span>
  const text = `${formatNumber(latitude, 5, 6)}, ${formatNumber(longitude, 5, 6)}`
  return <a href={`geo:${latitude},${longitude}`}>{text}</a>
}

function Contact({ owner }: { owner: Props['owner'] }) {
  if (!owner) return <span className="muted">No owner is named.</span>
  return (
    <>
      <span>{owner.name}</span>
      {owner.phone ? <a href={`tel:${owner.phone.replace(/[^\d+]/g, '')}`}>{owner.phone}</a> : null}
      {owner.email ? (
        <a href={`mailto:${encodeURIComponent(owner.email).replace('%40', '@')}`}>{owner.email}</a>
      ) : null}
    </>
  )
}

/** "11-15" as "15 Nov" or "Nov 15". */
function dayOfYear(monthDay: string, units: UnitSystem): string {
  return daysShown(formatDay(`2024-${monthDay}`, 'short', 'en-GB').slice(0, -' 2024'.length), units)
}
