import { showDay } from '@/app/ui/show-day'
import { YieldMark } from '@/app/ui/yield-mark'
import type { WellRegister } from '@/lib/domain/logbook/register'
import type { YieldMark as Mark } from '@/lib/domain/logbook/yield-series'
import { inUnits, sayOutlook } from '@/lib/domain/logbook/yield-words'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import type { DateOutlook, YieldStanding } from '@/lib/domain/yield/decline/types'
import type { FleetCalls } from '@/lib/records/yield-list'

type Props = {
  standing: YieldStanding
  register: Pick<WellRegister, 'demandM3PerS' | 'intakeDepthM'>
  marks: readonly Mark[]
  calls: FleetCalls
  today: Day
  units: UnitSystem
}

/** The answer first: what is seen, how sure, what to measure next, and when it will matter. */
export function Verdict({ standing, register, marks, calls, today, units }: Props) {
  const { sentence, next, baseline, capacity, outlook } = standing
  const resets = marks.filter((mark) => mark.resets)
  return (
    <section className="sheet yield-verdict" aria-labelledby="verdict">
      <h2 id="verdict" className="unseen">
        What is seen
      </h2>
      <YieldMark of={standing} />
      <p>
        <strong>{inUnits(sentence, units)}</strong>
      </p>
      {standing.flag ? <p>{sayFleet(standing, calls)}</p> : null}
      <p>Next: {inUnits(next, units)}</p>
      <dl className="facts">
        <div>
          <dt>Capacity, last measured</dt>
          <dd>
            {capacity
              ? `${formatQuantity(capacity.m2PerS, 'capacity', units)} on ${showDay(capacity.on, units)}`
              : 'not measured'}
          </dd>
        </div>
        <div>
          <dt>Baseline</dt>
          <dd>
            {baseline
              ? `${formatQuantity(baseline.m2PerS, 'capacity', units)}, 8 times in 10 between ${formatQuantity(baseline.low, 'capacity', units)} and ${formatQuantity(baseline.high, 'capacity', units)}, since ${showDay(baseline.since, units)}`
              : 'not established'}
          </dd>
        </div>
        <div>
          <dt>75 % of baseline</dt>
          <dd>{dated(outlook.to75Percent, lossWhy(outlook.why), today)}</dd>
        </div>
        <div>
          <dt>Below demand</dt>
          <dd>{dated(outlook.belowDemand, demandWhy(register, outlook.why), today)}</dd>
        </div>
      </dl>
      {outlook.to75Percent || outlook.belowDemand ? <p className="muted">{outlook.why}</p> : null}
      {resets.map(({ on, what }) => (
        <p key={`${on} ${what}`}>
          The baseline began anew when the well was {what} on {showDay(on, units)}; what was read before
          counts for the well’s ways with season and level, not for its capacity.
        </p>
      ))}
    </section>
  )
}

function dated(outlook: DateOutlook | null, why: string, today: Day): string {
  return outlook ? sayOutlook(outlook, today) : `not established. ${why}`
}

/** Why there is no date for a loss, where the reasons told are those of another date. */
function lossWhy(why: string): string {
  return why.startsWith('No date') ? why : 'A loss of capacity is not established.'
}

/** What is missing in the register for a date, or what the reckoning says. */
function demandWhy({ demandM3PerS, intakeDepthM }: Props['register'], why: string): string {
  if (demandM3PerS === null) return 'The demand is not in the register.'
  if (intakeDepthM === null) return 'The depth of the intake is not in the register.'
  return why.startsWith('No date') ? why : 'Nothing that is established leads there.'
}

function sayFleet({ evidence }: YieldStanding, { listed, leastOdds, share }: FleetCalls): string {
  const wells = `all ${listed.toLocaleString('en-US')} wells that are looked at`
  const percent = `${Number((100 * share).toPrecision(3))} %`
  return leastOdds !== null && evidence.declineOdds >= leastOdds
    ? `The call also holds among ${wells}, where at most ${percent} of calls are expected to be false.`
    : `The call rests on this well’s own readings; among ${wells} it may still be chance at a false-alarm share of ${percent}.`
}
