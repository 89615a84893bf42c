import Link from 'next/link'
import type { ChartSpan } from '@/app/ui/charts/shapes'
import { Spark } from '@/app/ui/charts/spark'
import { YieldMark } from '@/app/ui/yield-mark'
import { inUnits, sayChange, sayOutlook } from '@/lib/domain/logbook/yield-words'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import { paths } from '@/lib/paths'
import type { FleetCalls, YieldRow } from '@/lib/records/yield-list'

type Props = { rows: readonly YieldRow[]; calls: FleetCalls; today: Day; units: UnitSystem }

/** All small pictures on one time axis, this many years at most, and on one scale of parts of the baseline. */
const YEARS = 12
const RANGE = [0.3, 1.2] as const

export function YieldTable({ rows, calls, today, units }: Props) {
  const span = spanOf(rows, today)
  return (
    <>
      <p className="muted small">
        Small pictures: capacity at one static level and pumping time, as a part of each well’s baseline (full
        line; broken line: 75 %), {span.from.slice(0, 4)} to {span.to.slice(0, 4)}, from 30 % to 120 %.
      </p>
      <div className="table-frame">
        <table className="table table-cards yield-table">
          <caption className="unseen">Wells, the likeliest loss of capacity first</caption>
          <thead>
            <tr>
              <th scope="col">Well</th>
              <th scope="col">Capacity</th>
              <th scope="col">What is seen, and how sure</th>
              <th scope="col">When it matters</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <YieldLine key={row.wellId} {...{ row, calls, span, today, units }} />
            ))}
          </tbody>
        </table>
      </div>
    </>
  )
}

type LineProps = Omit<Props, 'rows'> & { row: YieldRow; span: ChartSpan }

function YieldLine({ row, calls, span, today, units }: LineProps) {
  const summary = row.yield
  return (
    <tr>
      <th scope="row" className="pair">
        <Link href={paths.wellYield(row.wellId)} prefetch={false}>
          {row.label}
        </Link>
        {row.wellName ? <span className="muted">{row.wellName}</span> : null}
        {row.area ? <span className="muted">{row.area}</span> : null}
      </th>
      <td className="yield-capacity">
        <SmallPicture {...{ row, span }} />
        <Capacity {...{ summary, units }} />
      </td>
      <td className="yield-says">
        <YieldMark of={summary} />
        <p>{inUnits(summary.sentence, units)}</p>
        {summary.flag ? <p>{sayHeld(summary.declineOdds, calls)}</p> : null}
        {summary.cause === 'steady' ? null : <p className="muted">Next: {inUnits(summary.next, units)}</p>}
      </td>
      <td className="yield-when">
        <Outlook {...{ summary, today }} />
      </td>
    </tr>
  )
}

function SmallPicture({ row, span }: { row: YieldRow; span: ChartSpan }) {
  const { baseline, points } = row.yield
  const shown = points.filter(({ on }) => on >= span.from)
  if (!baseline || shown.length < 2) return null
  return (
    <Spark
      label={`Capacity of ${row.label} as a part of its baseline, ${shown.length} tests`}
      points={shown.map(({ on, m2PerS }) => ({ on, value: m2PerS / baseline.m2PerS }))}
      span={span}
      range={RANGE}
      levels={[1, 0.75]}
    />
  )
}

function Capacity({ summary, units }: { summary: YieldRow['yield']; units: UnitSystem }) {
  const { capacity, change, tests } = summary
  if (!capacity) return <span className="muted">not measured</span>
  return (
    <span className="small">
      <span className="number">{formatQuantity(capacity.m2PerS, 'capacity', units)}</span>
      {change === null ? null : `, ${sayChange(change)}`}
      <span className="muted">
        {' '}
        ({tests} {tests === 1 ? 'test' : 'tests'})
      </span>
    </span>
  )
}

/** Whether the call of a flagged well holds among all wells that were looked at. */
function sayHeld(odds: number, { leastOdds }: FleetCalls): string {
  return leastOdds !== null && odds >= leastOdds
    ? 'The call holds for the fleet as a whole.'
    : 'Called on its own readings; among so many wells looked at, it may still be chance.'
}

function Outlook({ summary, today }: { summary: YieldRow['yield']; today: Day }) {
  const { to75Percent, belowDemand, why } = summary.outlook
  if (!to75Percent && !belowDemand) {
    return <span className="muted">{summary.cause === 'steady' ? 'No loss, no date' : why}</span>
  }
  return (
    <dl className="yield-dates">
      {to75Percent ? (
        <div>
          <dt>75 % of baseline</dt>
          <dd>{sayOutlook(to75Percent, today)}</dd>
        </div>
      ) : null}
      {belowDemand ? (
        <div>
          <dt>Below demand</dt>
          <dd>{sayOutlook(belowDemand, today)}</dd>
        </div>
      ) : null}
    </dl>
  )
}

/** From the first test in sight to today. */
function spanOf(rows: readonly YieldRow[], today: Day): ChartSpan {
  const earliest = addDays(today, -YEARS * 365)
  const [first = today] = rows.flatMap((row) => row.yield.points[0]?.on ?? []).sort()
  if (first >= today) return { from: addDays(today, -365), to: today }
  return { from: [first, earliest].sort()[1] ?? earliest, to: today }
}
