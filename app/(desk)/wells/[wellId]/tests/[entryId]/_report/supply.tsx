import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { SeasonalLow } from '@/lib/domain/logbook/seasonal-low'
import type { TestResult } from '@/lib/domain/logbook/test-result'
import {
  KEEP_ABOVE_INTAKE_M,
  type Supply,
  supplyAtLow,
  testedDrawdownM,
} from '@/lib/domain/logbook/test-supply'
import { formatNumber, formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { TestReport } from '@/lib/records/well-tests'

type Props = { result: TestResult; low: SeasonalLow; well: TestReport['well']; units: UnitSystem }

/** What the test means where the water stands lowest: the rate that the well carries then, against its demand. */
export function SupplySection({ result, low, well, units }: Props) {
  const supply = supplyAtLow(result, low, well)
  const show = (si: number, use: 'flow' | 'drawdown' | 'depth' | 'demand' | 'tank') =>
    formatQuantity(si, use, units)
  const { available, rate } = supply
  return (
    <section aria-labelledby="supply" className="stack-tight">
      <h2 id="supply">At the seasonal low, against the demand</h2>
      <Verdict supply={supply} />
      <dl className="figures">
        {low.kind === 'low' ? (
          <Figure what="Deepest level at rest">
            {show(low.levelM, 'depth')} on {showDay(low.on, units)}, of {low.readings}{' '}
            {low.readings === 1 ? 'reading' : 'readings'} in {low.months}{' '}
            {low.months === 1 ? 'month' : 'months'} of the year since {showDay(low.since, units)}
          </Figure>
        ) : null}
        {available.kind === 'available' ? (
          <Figure what="Drawdown left there">
            {show(available.drawdownM, 'drawdown')}, keeping {show(KEEP_ABOVE_INTAKE_M, 'drawdown')} of water
            above the intake (common practice, no published source)
          </Figure>
        ) : null}
        {rate ? (
          <Figure what="Rate it carries then">
            {show(rate.value, 'flow')}
            {rate.low < rate.high
              ? ` (80 % interval ${show(rate.low, 'flow')} to ${show(rate.high, 'flow')})`
              : ''}
          </Figure>
        ) : null}
        {well.demandM3PerS !== null ? (
          <Figure what="Demand">{show(well.demandM3PerS, 'demand')}</Figure>
        ) : null}
      </dl>
      <ul className="small">
        {supply.missing.map((text) => (
          <li key={text}>{text}</li>
        ))}
        {doubts(supply, low, result).map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  )
}

function Verdict({ supply: { rate, demand } }: { supply: Supply }) {
  if (!rate || !demand) {
    return (
      <p>
        <Status tone="unsure">Cannot be said</Status>
      </p>
    )
  }
  const hours = demand.hoursPerDayNeeded
  // The low end of the interval decides: where it falls short, the well is not said to carry its demand.
  const surely = rate.value > 0 && demand.ratio * (rate.low / rate.value) >= 1
  const needs = hours === null ? '' : `${formatNumber(hours, 0, 1)} hours of pumping a day would meet it`
  if (!demand.carries) {
    return (
      <p>
        <Status tone="alarm">Does not carry its demand</Status> even when pumped all day.
      </p>
    )
  }
  return (
    <p>
      {surely ? (
        <Status tone="calm">Carries its demand by this test</Status>
      ) : (
        <Status tone="watch">Barely, within the doubt of this test</Status>
      )}
      : {needs}.
    </p>
  )
}

function doubts(supply: Supply, low: SeasonalLow, result: TestResult): string[] {
  const few =
    low.kind === 'low' && low.months < 4
      ? ['Levels at rest were read in few months only: the true low may lie deeper.']
      : []
  const { available, rate } = supply
  const deeper =
    rate && available.kind === 'available' && available.drawdownM > testedDrawdownM(result)
      ? ['The test did not go that deep: the well may give less near its intake.']
      : []
  return [...few, ...deeper]
}

function Figure({ what, children }: { what: string; children: React.ReactNode }) {
  return (
    <div>
      <dt>{what}</dt>
      <dd>{children}</dd>
    </div>
  )
}
