'use client'

import { type TestedWell, testResult } from '@/lib/domain/logbook/test-result'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import type { TestDraft, TestKind } from '@/lib/forms/test/draft'
import { findings } from '@/lib/forms/test/findings'
import { liveReadings } from '@/lib/forms/test/live-readings'
import { testCurve } from '../../_result/curve'
import { CurvePicture } from '../../_result/curve-picture'
import { Says } from '../../_result/says'

export type LiveProps = {
  kind: Exclude<TestKind, 'step'>
  draft: TestDraft
  well: TestedWell
  units: UnitSystem
}

/** The result so far, reckoned on the device with the same functions as the report. */
export function LiveResult({ kind, draft, well, units }: LiveProps) {
  const test = liveReadings(kind, draft, units)
  if (test.kind === 'step' || test.readings.length === 0)
    return <p className="muted">The result appears here as readings come in.</p>
  const result = testResult(test, well)
  const found = findings(test, result, units)
  return (
    <>
      <Says found={found} early />
      <CurvePicture curve={testCurve(test, result)} units={units} says={found.says} />
    </>
  )
}
