import { formatDay, formatNumber } from '@/lib/domain/quantity'
import type { WellPage } from '@/lib/records/wells'
import { VisitWords } from '../../../_rounds/visit-words'

type Props = { well: WellPage['well']; owner: WellPage['owner'] }

/** What somebody on the way there needs: where, whom to call, how to get in, and when nobody does. */
export function Place({ well, owner }: Props) {
  return (
    <section aria-labelledby="place" className="stack-tight">
      <h2 id="place">Place and owner</h2>
      <div className="sheet stack-tight">
        <p className="here">
          <Coordinate well={well} />
          <Contact owner={owner} />
        </p>
        {well.access ? <p>Way in: {well.access}</p> : null}
        <VisitWords well={well} />
        {well.closedFrom && well.closedTo ? (
          <p>
            Closed every year from {dayOfYear(well.closedFrom)} to {dayOfYear(well.closedTo)}
            {well.closedWhy ? `: ${well.closedWhy}` : ''}.
          </p>
        ) : null}
        {well.notes ? <p>{well.notes}</p> : null}
      </div>
    </section>
  )
}

function Coordinate({ well }: { well: Props['well'] }) {
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

/** "11-15" as "15 Nov". */
function dayOfYear(monthDay: string): string {
  return formatDay(`2024-${monthDay}`, 'short', 'en-GB').slice(0, -' 2024'.length)
}
