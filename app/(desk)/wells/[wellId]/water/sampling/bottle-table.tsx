import { showDay } from '@/app/ui/show-day'
import type { UnitSystem } from '@/lib/domain/quantity'
import { analyteName } from '@/lib/domain/water/analytes'
import type { SamplingSheet } from '@/lib/domain/water/sampling'
import type { Moment } from '@/lib/domain/water/types'

type Props = { sheet: SamplingSheet; sampledAt: Moment | null; setupHours: number; units: UnitSystem }

/** One line a bottle: what it is, how it is kept, how long it holds, and the latest moment at the counter. */
export function BottleTable({ sheet, sampledAt, setupHours, units }: Props) {
  const timed = sampledAt !== null && sampledAt.length > DAY_LENGTH
  return (
    <section className="stack-tight" aria-labelledby="bottles">
      <h2 id="bottles">Bottles</h2>
      <p>
        {sheet.latestDropOff ? (
          <>
            At the laboratory by <strong>{momentWords(sheet.latestDropOff, units)}</strong> at the latest, if
            filled {sampledAt ? momentWords(sampledAt, units) : ''}
            {setupHours > 0 ? ` (${setupHours} h of the laboratory’s own time taken off)` : ''}.
          </>
        ) : timed ? (
          'No bottle sets a latest hour.'
        ) : (
          'With day and time of sampling, the latest hour at the laboratory is reckoned here.'
        )}{' '}
        {setupHours === 0
          ? 'The test must have begun by then: ask how long before that the laboratory wants them.'
          : ''}
      </p>
      <div className="table-frame">
        <table className="table table-cards">
          <caption className="unseen">Bottles to fill</caption>
          <thead>
            <tr>
              <th scope="col">Bottle</th>
              <th scope="col">For</th>
              <th scope="col">Keep</th>
              <th scope="col">Holds</th>
              <th scope="col">Latest at the laboratory</th>
            </tr>
          </thead>
          <tbody>
            {sheet.bottles.map((bottle) => (
              <tr key={`${bottle.bottle} ${bottle.preservation} ${bottle.holdText}`}>
                <th scope="row" className="pair">
                  <span>
                    <span className="tick" aria-hidden="true" /> {bottle.bottle}
                  </span>
                  <span className="muted">{bottle.container}</span>
                </th>
                <td data-label="For">{bottle.analytes.map(analyteName).join(', ')}</td>
                <td data-label="Keep">
                  {bottle.preservation}
                  {bottle.maxTempC === null || bottle.preservation.includes('°C')
                    ? ''
                    : ` (at most ${bottle.maxTempC} °C)`}
                </td>
                <td data-label="Holds">
                  {bottle.holdText}
                  <span className="muted small">
                    {' '}
                    {bottle.source}
                    {bottle.seen === 'memory' ? ', from memory' : ''}
                  </span>
                </td>
                <td data-label="Latest at the laboratory">
                  {bottle.latestDropOff
                    ? latestWords(bottle.latestDropOff, bottle.holdHours, units)
                    : timed
                      ? 'no fixed hour'
                      : '__________'}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  )
}

const DAY_LENGTH = 10

/** To the hour where hours count; of a bottle that keeps for weeks the day is enough. */
function latestWords(moment: Moment, holdHours: number, units: UnitSystem): string {
  return momentWords(holdHours > HOURS_COUNT_TO ? moment.slice(0, DAY_LENGTH) : moment, units)
}

const HOURS_COUNT_TO = 7 * 24

function momentWords(moment: Moment, units: UnitSystem): string {
  const [day = '', time] = moment.split('T')
  return time === undefined ? showDay(day, units) : `${showDay(day, units)}, ${time}`
}
