import { sayChange, sayTrend } from '@/lib/domain/logbook/yield-words'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'

/** What the verdict rests on, each possible cause with how likely it is and what speaks for it. */
export function Evidence({ standing, units }: { standing: YieldStanding; units: UnitSystem }) {
  const { chance, capacityChange, flowChange, staticFallM, staticFallMPerYear, used, mended, leftOut } =
    standing.evidence
  // Before a trend can be told, what looks like a chance is only what is usual among wells.
  const tells = standing.trend.kind !== 'too-few'
  const rows = [
    {
      what: 'The well itself is losing capacity',
      chance: tells ? chance.well : null,
      seen: capacityChange === null ? null : `capacity since the baseline: ${sayChange(capacityChange)}`,
    },
    {
      what: 'The water table falls',
      chance: staticFallM === null ? null : chance.waterTable,
      seen:
        staticFallM === null || staticFallMPerYear === null
          ? null
          : `level at rest with season and weather taken out: ${moved(staticFallM, units)}`,
    },
    {
      what: 'The pump gives less',
      chance: tells ? chance.pump : null,
      seen: flowChange === null ? null : `flow by wear: ${sayChange(flowChange)}`,
    },
  ]
  return (
    <section aria-labelledby="evidence" className="stack-tight">
      <h2 id="evidence">The evidence</h2>
      <table className="table table-cards yield-evidence">
        <caption className="unseen">How likely each cause is, and what was seen of it</caption>
        <thead>
          <tr>
            <th scope="col">Cause</th>
            <th scope="col">How likely</th>
            <th scope="col">What was seen</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.what}>
              <th scope="row">{row.what}</th>
              <td data-label="How likely">{row.chance === null ? 'cannot say' : likely(row.chance)}</td>
              <td data-label="What was seen">{row.seen ?? 'not read often enough'}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p>{sayTrend(standing.trend)}</p>
      <p>{sayOdds(standing)}</p>
      <p className="muted">
        {used} {used === 1 ? 'visit' : 'visits'} with readings used, {mended} with a plain slip mended,{' '}
        {leftOut} left out in part or whole.
      </p>
    </section>
  )
}

/** Less than this is within what weather does to a level. */
const SPEAKABLE_M = 0.1

function likely(chance: number): string {
  if (chance > 0.99) return 'over 99 %'
  if (chance < 0.01) return 'under 1 %'
  return `${Math.round(100 * chance)} %`
}

function moved(fallM: number, units: UnitSystem): string {
  if (Math.abs(fallM) < SPEAKABLE_M) return 'no change to speak of'
  const size = formatQuantity(Math.abs(fallM), 'depth', units)
  return fallM < 0 ? `up ${size}` : `down ${size}`
}

/** How much better a loss explains the readings, in words for who does not reckon in odds. */
function sayOdds({ evidence, trend }: YieldStanding): string {
  if (trend.kind === 'too-few') return 'With so few tests a loss is not weighed against chance.'
  const { declineOdds } = evidence
  if (declineOdds >= 1e6)
    return 'A loss explains the readings more than a million times better than a well that holds.'
  if (declineOdds >= 1)
    return `A loss explains the readings ${figures(declineOdds)} times as well as a well that holds.`
  return `A well that holds explains the readings ${figures(1 / Math.max(declineOdds, 1e-6))} times as well as a loss.`
}

function figures(times: number): string {
  return times < 10 ? times.toFixed(1) : Number(times.toPrecision(2)).toLocaleString('en-US')
}
