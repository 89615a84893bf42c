import type { Viewer } from '@/lib/access/viewer'
import type { LogLine } from '@/lib/domain/logbook/history'
import { type SeasonalLow, seasonalLow } from '@/lib/domain/logbook/seasonal-low'
import {
  isTest,
  type TestedWell,
  type TestFact,
  testReadings,
  testResult,
} from '@/lib/domain/logbook/test-result'
import type { Day } from '@/lib/domain/quantity/day'
import type { Db } from './db'
import { logbookOf } from './logbook-of-well'
import { registerWithModels } from './model-rows'
import type { WellRow } from './rows'
import { entriesShownTo } from './shown-entries'
import { visibleWell } from './wells'

/** A test as it reads now; `stands` is false where it was withdrawn. */
export type TestLine = Omit<LogLine, 'fact'> & { fact: TestFact }

/** What the form of a test must know of its well. */
export type TestSetting = {
  label: string
  name: string | null
  well: TestedWell
  /** The last recovery that could be reckoned: how long the water takes to come to rest. */
  lastRecovery: { on: Day; timeConstantS: number } | null
}

/** The setting of a test; null when there is no such well for this viewer. */
export function testSetting(db: Db, viewer: Viewer, wellId: string): TestSetting | null {
  const page = testsOfWell(db, viewer, wellId)
  if (!page) return null
  const { label, name } = page.well
  const well = registerWithModels(db.sqlite, page.well, [])
  return { label, name, well: testedWell(well), lastRecovery: lastRecovery(page.tests, well) }
}

/** Every test of a well, newest first, withdrawn ones among them; null when there is no such well for this viewer. */
export function testsOfWell(
  db: Db,
  viewer: Viewer,
  wellId: string,
): { well: WellRow; tests: TestLine[] } | null {
  const well = visibleWell(db, viewer, wellId)
  return well && { well, tests: testLines(logbookOf(entriesShownTo(db, viewer, well)).visits) }
}

export type TestReport = {
  well: WellRow
  test: TestLine
  /** The visit that the test is a line of. */
  visitId: string
  /** What the pump gave before the water was left to come back, where the visit says so. */
  pumped: { flowM3PerS: number; pumpedS: number | null } | null
  low: SeasonalLow
}

/** One test with what its report needs; null when there is no such test of that well for this viewer. */
export function testReport(db: Db, viewer: Viewer, wellId: string, entryId: string): TestReport | null {
  const well = visibleWell(db, viewer, wellId)
  if (!well) return null
  const { visits, facts } = logbookOf(entriesShownTo(db, viewer, well))
  const visit = visits.find((one) => one.lines.some((line) => line.id === entryId))
  const test = visit && testLines([visit]).find((line) => line.id === entryId)
  if (!test || !visit) return null
  const flow = visit.lines.find((line) => line.stands && line.fact.kind === 'flow-reading')?.fact
  return {
    well,
    test,
    visitId: visit.visitId,
    pumped:
      flow?.kind === 'flow-reading' ? { flowM3PerS: flow.flow.si, pumpedS: flow.pumped?.si ?? null } : null,
    low: seasonalLow(facts, test.on),
  }
}

function testLines(visits: readonly { lines: readonly LogLine[] }[]): TestLine[] {
  return visits.flatMap(({ lines }) =>
    lines.flatMap((line) => (isTest(line.fact) ? [{ ...line, fact: line.fact }] : [])),
  )
}

function testedWell(register: TestedWell): TestedWell {
  const { casingBoreM, casingOutsideM, pitDiameterM, pitLengthM, pitWidthM, gravelPorosity } = register
  const { wellDepthM, intakeDepthM } = register
  return {
    casingBoreM,
    casingOutsideM,
    pitDiameterM,
    pitLengthM,
    pitWidthM,
    gravelPorosity,
    wellDepthM,
    intakeDepthM,
  }
}

function lastRecovery(tests: readonly TestLine[], well: TestedWell): TestSetting['lastRecovery'] {
  for (const { stands, fact, on } of tests) {
    if (!stands || fact.kind !== 'recovery-test') continue
    const result = testResult(testReadings(fact), well)
    if (result.kind === 'recovery' && result.fit.kind === 'fit')
      return { on, timeConstantS: result.fit.timeConstantS.value }
  }
  return null
}
