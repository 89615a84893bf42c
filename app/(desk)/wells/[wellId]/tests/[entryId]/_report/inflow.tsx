import { TableFrame } from '@/app/ui/table-frame'
import type { TestResult } from '@/lib/domain/logbook/test-result'
import { inflowAt, tellsInflow, testedDrawdownM } from '@/lib/domain/logbook/test-supply'
import { displayUnit, formatQuantity, fromSi, toSi, type UnitSystem } from '@/lib/domain/quantity'
import type { Interval80 } from '@/lib/domain/yield/tests/result'

/** Inflow at round drawdowns, down to a little below what the test saw. */
export function InflowSection({ result, units }: { result: TestResult; units: UnitSystem }) {
  if (!tellsInflow(result)) return null
  const tested = testedDrawdownM(result)
  const drawdowns = roundDrawdowns(tested, units)
  const step = result.kind === 'step'
  return (
    <section aria-labelledby="inflow" className="stack-tight">
      <h2 id="inflow">Inflow at a drawdown</h2>
      <TableFrame label="Inflow at a drawdown">
        <table className="table">
          <thead>
            <tr>
              <th scope="col">Drawdown</th>
              <th scope="col">Inflow</th>
              <th scope="col">{step ? 'Seen by the test' : '80 % interval'}</th>
            </tr>
          </thead>
          <tbody>
            {drawdowns.map((drawdownM) => {
              const inflow = inflowAt(result, drawdownM)
              const beyond = drawdownM > tested * 1.001
              return (
                <tr key={drawdownM}>
                  <td className="number">
                    {formatQuantity(drawdownM, 'drawdown', units)}
                    {beyond ? ' *' : ''}
                  </td>
                  <td className="number">
                    {inflow ? formatQuantity(inflow.value, 'flow', units) : 'not known'}
                  </td>
                  <td>{step ? (beyond ? 'no' : 'yes') : interval(inflow, units)}</td>
                </tr>
              )
            })}
          </tbody>
        </table>
      </TableFrame>
      {drawdowns.some((drawdownM) => drawdownM > tested * 1.001) ? (
        <p className="small muted text">
          * Deeper than the test went ({formatQuantity(tested, 'drawdown', units)}): the well may give less
          there.
        </p>
      ) : null}
    </section>
  )
}

function interval(inflow: Interval80 | null, units: UnitSystem): string {
  if (!inflow) return 'not known'
  // A method without an interval gives the value itself at both ends.
  if (inflow.low === inflow.high) return 'this method gives none'
  return `${formatQuantity(inflow.low, 'flow', units)} to ${formatQuantity(inflow.high, 'flow', units)}`
}

/** Up to seven round drawdowns in the reader's unit, the last at what was tested or just past it. In m. */
function roundDrawdowns(testedM: number, units: UnitSystem): number[] {
  const unit = displayUnit('drawdown', units)
  const tested = fromSi(testedM, unit)
  const steps = [0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5, 10]
  const step = steps.find((one) => tested / one <= 6) ?? 20
  return Array.from({ length: Math.floor(tested / step) + 1 }, (_, i) => toSi((i + 1) * step, unit))
}
