import type { TestResult } from '@/lib/domain/logbook/test-result'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import { span } from '@/lib/domain/yield/tests/result'
import { inUnits } from '@/lib/forms/test/say'

type Props = { result: Extract<TestResult, { kind: 'recovery' }>; units: UnitSystem }

/** The classical recuperation formula, the two-point case of the curve, for whoever reckons by it. */
export function ClassicalSection({ result, units }: Props) {
  return (
    <section aria-labelledby="classical" className="stack-tight">
      <h2 id="classical">By the classical recuperation formula</h2>
      <p className="text">{classicalWords(result, units)}</p>
      <p className="small muted text">
        K/A = ln(H1/H2)/T over two levels only (Slichter&apos;s relation, as in Punmia, Irrigation and Water
        Power Engineering, ch. 5). It is the two-point case of the curve above, without its interval.
      </p>
    </section>
  )
}

function classicalWords({ twoPoint, area }: Props['result'], units: UnitSystem): string {
  const show = (si: number) => formatQuantity(si, 'drawdown', units)
  if (!twoPoint)
    return 'It needs a level at rest and two levels while the water rose: one of them is missing.'
  const { answer, drawdownFirstM, drawdownLastM, elapsedS } = twoPoint
  if (answer.kind === 'refused') return inUnits(answer.message, units)
  const from = `From ${show(drawdownFirstM)} to ${show(drawdownLastM)} below rest in ${span(elapsedS)}`
  const ka = `K/A = ${(answer.perAreaPerS * 3600).toPrecision(3)} per hour, time constant ${span(answer.timeConstantS)}`
  if (area.kind === 'cannot-say') return `${from}: ${ka}.`
  const capacity = formatQuantity(answer.perAreaPerS * area.areaM2, 'capacity', units)
  return `${from}: ${ka}; with the filling area of this well ${capacity}.`
}
