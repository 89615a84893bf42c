import { TableFrame } from '@/app/ui/table-frame'
import type { TestFact, TestResult } from '@/lib/domain/logbook/test-result'
import { formatQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'
import { span } from '@/lib/domain/yield/tests/result'
import { percent } from '@/lib/forms/test/findings'
import type { TestReport } from '@/lib/records/well-tests'

type Props = { fact: TestFact; result: TestResult; pumped: TestReport['pumped']; units: UnitSystem }

/** Everything that was read, as read. */
export function ReadingsSection({ fact, result, pumped, units }: Props) {
  const show = (si: number, use: Use) => formatQuantity(si, use, units)
  const flow =
    fact.kind === 'drawdown-test'
      ? `Pumped at ${show(fact.flow.si, 'flow')}.`
      : fact.kind === 'recovery-test' && pumped
        ? `Before the test the pump gave ${show(pumped.flowM3PerS, 'flow')}${pumped.pumpedS === null ? '' : ` for ${span(pumped.pumpedS)}`}.`
        : ''
  return (
    <section aria-labelledby="readings" className="stack-tight">
      <h2 id="readings">{fact.kind === 'step-test' ? 'Steps' : 'Readings'}</h2>
      <p>
        {fact.static
          ? `Level at rest ${show(fact.static.si, 'depth')} below the measuring point.`
          : 'The level at rest was not read.'}{' '}
        {flow}
      </p>
      <TableFrame label="Readings of the test">
        {result.kind === 'step' && fact.kind === 'step-test' ? (
          <StepTable {...{ fact, result, show }} />
        ) : fact.kind === 'step-test' ? null : (
          <LevelTable {...{ fact, result, show }} />
        )}
      </TableFrame>
    </section>
  )
}

type Show = (si: number, use: Use) => string

function LevelTable({
  fact,
  result,
  show,
}: {
  fact: Exclude<TestFact, { kind: 'step-test' }>
  result: TestResult
  show: Show
}) {
  const fit = result.kind === 'recovery' && result.fit.kind === 'fit' ? result.fit : null
  const aside = new Map(fit?.setAside.map((r) => [r.elapsedS, r.hint]))
  const staticM = fit?.staticM ?? fact.static?.si ?? null
  const readings = [...fact.readings].sort((a, b) => a.elapsed.si - b.elapsed.si)
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">{fact.kind === 'recovery-test' ? 'Since pump off' : 'Since pump on'}</th>
          <th scope="col">Level</th>
          <th scope="col">Drawdown</th>
          {aside.size > 0 ? <th scope="col">Doubt</th> : null}
        </tr>
      </thead>
      <tbody>
        {readings.map(({ elapsed, level }) => (
          <tr key={elapsed.si}>
            <td className="number">{span(elapsed.si)}</td>
            <td className="number">{show(level.si, 'depth')}</td>
            <td className="number">
              {staticM === null ? 'not known' : show(level.si - staticM, 'drawdown')}
            </td>
            {aside.size > 0 ? <td>{aside.has(elapsed.si) ? 'set aside, not used' : ''}</td> : null}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function StepTable({
  fact,
  result,
  show,
}: {
  fact: Extract<TestFact, { kind: 'step-test' }>
  result: Extract<TestResult, { kind: 'step' }>
  show: Show
}) {
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">Flow</th>
          <th scope="col">Ran for</th>
          <th scope="col">Level at its end</th>
          <th scope="col">Drawdown</th>
          <th scope="col">Share taken by the ground</th>
        </tr>
      </thead>
      <tbody>
        {fact.steps.map((step, i) => {
          const { drawdownM = null, efficiency = null } = result.steps[i] ?? {}
          return (
            <tr key={`${step.flow.si} ${step.level.si}`}>
              <td className="number">{show(step.flow.si, 'flow')}</td>
              <td className="number">{span(step.duration.si)}</td>
              <td className="number">{show(step.level.si, 'depth')}</td>
              <td className="number">{drawdownM === null ? 'not known' : show(drawdownM, 'drawdown')}</td>
              <td className="number">{efficiency === null ? 'not known' : percent(efficiency)}</td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}
