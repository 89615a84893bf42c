import type { TestReadings, TestResult } from '@/lib/domain/logbook/test-result'
import { formatNumber, formatQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'
import type { DrawdownFit } from '@/lib/domain/yield/tests/drawdown'
import type { RecoveryFit } from '@/lib/domain/yield/tests/recovery'
import { type Interval80, span } from '@/lib/domain/yield/tests/result'
import type { StepFit } from '@/lib/domain/yield/tests/step'
import { inUnits } from './say'

export type Finding = { what: string; value: string }

/** What a test says, in a sentence and in figures, and what speaks against leaning on it. */
export type Findings = { refused: boolean; says: string; figures: Finding[]; doubts: string[] }

/** Words for a result, in the reader's units. Serves the page while readings come in and the report alike. */
export function findings(test: TestReadings, result: TestResult, system: UnitSystem): Findings {
  const show = (si: number, use: Use) => formatQuantity(si, use, system)
  const { fit, area } = result
  if (fit.kind === 'refused') {
    const said = test.kind === 'recovery' ? wonBack(test.readings, test.staticM) : null
    return { refused: true, says: inUnits(fit.message, system), figures: said ? [said] : [], doubts: [] }
  }
  const noArea = area.kind === 'cannot-say' ? [area.message] : area.note === null ? [] : [area.note]
  const words = wordsOf(test, result, show)
  return {
    refused: false,
    says: words.says,
    figures: words.figures,
    doubts: [...words.doubts, ...(result.kind === 'step' ? [] : noArea)].map((text) => inUnits(text, system)),
  }
}

type Show = (si: number, use: Use) => string
type Words = Omit<Findings, 'refused'>

function wordsOf(test: TestReadings, result: TestResult, show: Show): Words {
  if (result.kind === 'recovery' && test.kind === 'recovery' && result.fit.kind === 'fit')
    return recoveryWords(test, result.fit, result.capacity, show)
  if (result.kind === 'drawdown' && result.fit.kind === 'fit') return drawdownWords(result.fit, show)
  if (result.kind === 'step' && result.fit.kind === 'fit') return stepWords(result.fit, show)
  throw new Error(`a ${test.kind} test with the result of a ${result.kind} test`)
}

function recoveryWords(
  test: Extract<TestReadings, { kind: 'recovery' }>,
  fit: RecoveryFit,
  capacity: Interval80 | null,
  show: Show,
): Words {
  const { timeConstantS, quality, window } = fit
  const back = wonBack(test.readings, fit.staticM, fit.startDrawdownM)
  const gives = capacity ? `; the well gives ${show(capacity.value, 'capacity')} of drawdown` : ''
  return {
    says: `The water wins back nine tenths of the drawdown in ${span(fit.ninetyPercentS)}${gives}.`,
    figures: [
      {
        what: 'Level at rest',
        value: `${show(fit.staticM, 'depth')}, ${fit.staticFrom === 'measured' ? 'read before the test' : 'where the curve is heading; it was not read'}`,
      },
      { what: 'Drawdown when the clock started', value: show(fit.startDrawdownM, 'drawdown') },
      ...(back ? [back] : []),
      {
        what: 'Time constant',
        value: `${span(timeConstantS.value)} (80 % interval ${span(timeConstantS.low)} to ${span(timeConstantS.high)})`,
      },
      { what: 'Half back in', value: span(fit.halfS) },
      { what: 'Nine tenths back in', value: span(fit.ninetyPercentS) },
      {
        what: 'Specific capacity',
        value: capacity ? between(capacity, show) : 'cannot be said: the filling area is not known',
      },
      {
        what: 'How well the curve fits',
        value: `${quality.word}: readings lie ${show(quality.residualM, 'drawdown')} off it, ${percent(quality.residualShare)} of the drawdown`,
      },
      {
        what: 'Readings used',
        value: `${window.readings} of ${test.readings.length}, from ${span(window.fromS)} to ${span(window.toS)}`,
      },
    ],
    doubts: [
      ...fit.notes,
      ...fit.setAside.map(
        ({ elapsedS, levelM, hint }) => `Set aside: ${show(levelM, 'depth')} at ${span(elapsedS)}; ${hint}.`,
      ),
    ],
  }
}

/** The share of the drawdown that has come back by the last reading; null without a level at rest. */
function wonBack(
  readings: readonly { elapsedS: number; levelM: number }[],
  staticM: number | null,
  startM?: number,
): Finding | null {
  const inTime = [...readings].sort((a, b) => a.elapsedS - b.elapsedS)
  const [first, last] = [inTime[0], inTime.at(-1)]
  if (staticM === null || !first || !last || inTime.length < 2) return null
  const from = startM ?? first.levelM - staticM
  if (!(from > 0)) return null
  const share = 1 - (last.levelM - staticM) / from
  return { what: 'Won back so far', value: `${percent(share)} by ${span(last.elapsedS)}` }
}

function drawdownWords(fit: DrawdownFit, show: Show): Words {
  const { line } = fit
  const capacity = show(fit.specificCapacityM2PerS, 'capacity')
  return {
    says: `After ${span(fit.atS)} the level stood ${show(fit.drawdownM, 'drawdown')} below rest: ${capacity} of drawdown.`,
    figures: [
      { what: `Drawdown at ${span(fit.atS)}`, value: show(fit.drawdownM, 'drawdown') },
      { what: 'Drawn from the ground at that time', value: show(fit.aquiferFlowM3PerS, 'flow') },
      {
        what: 'Still drawn from casing and gravel',
        value: fit.storageShare === null ? 'cannot be said' : percent(fit.storageShare),
      },
      { what: 'Specific capacity at that time', value: capacity },
      ...(line.kind === 'line'
        ? [{ what: 'Further drawdown for each tenfold time', value: show(line.perLogCycleM, 'drawdown') }]
        : []),
    ],
    doubts: [
      ...fit.notes,
      'This method gives no interval: compare it with other tests at the same rate and time only.',
    ],
  }
}

function stepWords(fit: StepFit, show: Show): Words {
  return {
    says: `Up to ${show(fit.upToM3PerS, 'flow')} the drawdown follows a part that grows with the rate and a part that grows with its square.`,
    figures: [
      { what: 'Ground loss B', value: `${fit.bSPerM2.toPrecision(3)} s/m²` },
      { what: 'Well loss C', value: `${fit.cS2PerM5.toPrecision(3)} s²/m⁵` },
      { what: 'Scatter about the line', value: `${percent(fit.residualShare)} of B` },
    ],
    doubts: fit.warnings,
  }
}

/** "2.1 gal/min/ft (80 % interval 1.9 to 2.4)", the unit written once where both ends share it. */
function between({ value, low, high }: Interval80, show: Show): string {
  return `${show(value, 'capacity')} (80 % interval ${show(low, 'capacity')} to ${show(high, 'capacity')})`
}

export const percent = (share: number): string => `${formatNumber(100 * share, 0, share < 0.1 ? 1 : 0)}%`
