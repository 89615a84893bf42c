import type { TestReadings, TestResult } from '@/lib/domain/logbook/test-result'

export type CurvePoint = { elapsedS: number; levelM: number }
export type TestCurve = {
  readings: (CurvePoint & { used: boolean })[]
  /** The fitted level over time; empty without a fit. */
  fitted: CurvePoint[]
  staticM: number | null
}

const STEPS = 60

/** Levels of a recovery or drawdown over time, with the curve through them where there is one. SI. */
export function testCurve(test: Exclude<TestReadings, { kind: 'step' }>, result: TestResult): TestCurve {
  const { readings, staticM } = test
  if (result.kind !== 'recovery' || result.fit.kind !== 'fit') {
    return { readings: readings.map((r) => ({ ...r, used: true })), fitted: [], staticM }
  }
  const { fit } = result
  const aside = new Set(fit.setAside.map((r) => r.elapsedS))
  const lastS = Math.max(...readings.map((r) => r.elapsedS))
  const fitted = Array.from({ length: STEPS + 1 }, (_, i) => {
    const elapsedS = (lastS * i) / STEPS
    const left = Math.exp(-elapsedS / fit.timeConstantS.value)
    return { elapsedS, levelM: fit.staticM + fit.startDrawdownM * left }
  })
  return {
    readings: readings.map((r) => ({ ...r, used: !aside.has(r.elapsedS) })),
    fitted,
    staticM: fit.staticM,
  }
}
