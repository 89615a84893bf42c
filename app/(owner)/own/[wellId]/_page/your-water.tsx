import Link from 'next/link'
import { Status } from '@/app/ui/status'
import { today } from '@/lib/clock'
import { nextTest, sayWaterToOwner } from '@/lib/domain/logbook/owner-water'
import { paths } from '@/lib/paths'
import type { OwnWell } from '@/lib/records/own-well'

/** Whether the water is fit, since when, and when the next test is. */
export function YourWater({ well, show }: { well: OwnWell; show: (day: string) => string }) {
  const { standing } = well
  const water = standing && sayWaterToOwner(standing.water, today(), show)
  return (
    <section className="sheet stack" aria-labelledby="water">
      <h2 id="water">Your water</h2>
      {water ? (
        <>
          <p className="verdict">
            <Status tone={water.tone}>{water.word}</Status>
          </p>
          <p className="text">{water.says}</p>
        </>
      ) : (
        <p>Nothing is known yet.</p>
      )}
      <p className="text">
        <strong>Next test:</strong> {nextWords(well, show)}
      </p>
      {well.samples.some(({ unconfirmed }) => unconfirmed) ? (
        <p className="text">
          A sheet was sent in that the outfit has not looked at yet. A bad result in it counts at once. A good
          one counts when they have looked at it.
        </p>
      ) : null}
      <p className="text muted">
        Your local health office may ask for more tests, or other ones. Their word comes first.
      </p>
      {well.samples.length === 0 ? null : (
        <>
          <h3>Lab sheets</h3>
          <ul className="plain-list">
            {well.samples.map(({ entryId, on, unconfirmed }) => (
              <li key={entryId}>
                <Link href={paths.ownSample(well.id, entryId)} prefetch={false}>
                  Sheet of {show(on)}
                </Link>
                {unconfirmed ? ', sent in, not yet looked at by the outfit' : ''}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  )
}

/** When to test next. While a warning is open its steps decide, and no later day is named. */
function nextWords({ standing }: OwnWell, show: (day: string) => string): string {
  if (standing && standing.water.chains.length > 0)
    return 'as part of clearing the warning on this page. Ask the outfit when.'
  const next = standing && nextTest(standing)
  if (!next) return 'no day is set. Ask the outfit when to test.'
  return next.on < today()
    ? `it was due on ${show(next.on)}. Ask the outfit, or have a sample tested and send the lab sheet in.`
    : `by ${show(next.on)}.`
}
