import { type Fact, type StoredQuantity, uuidSchema } from '@/lib/domain/logbook/kinds'
import { type TestedWell, type TestFact, testReadings, testResult } from '@/lib/domain/logbook/test-result'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import type { RefusalCode } from '@/lib/domain/yield/tests/result'
import type { TestKind } from './test/draft'
import { stepRows, timedRows, withUnit } from './test/rows'
import { inUnits } from './test/say'
import { type Line, lineId } from './visit/lines'
import { noteLine } from './visit/other-lines'
import { Reader } from './visit/reader'
import { AS_WRITTEN, levelStands } from './visit/readings'
import { type VisitReading, visitDay, visitTime } from './visit-form'

export type TestContext = { wellId: string; today: Day; system: UnitSystem; well: TestedWell }

/**
 * Reads a sent test into the entries it says: the test itself, the flow before a recovery, a note. Refused like a
 * visit, with one sentence a field; readings that cannot be of one honest test come back as a question first.
 *
 * Shape   `visitId` is made on the device and makes the ids of the lines, so that a test sent twice is stored once.
 *         Fields: date, time, by, static, flow, pumpedMinutes, note; rows as in ./test/rows.
 */
export function readTest(
  kind: TestKind,
  typed: Readonly<Record<string, string>>,
  context: TestContext,
): VisitReading {
  const reader = new Reader(typed, context.system)
  const visitId = uuidSchema.safeParse(reader.text('visitId'))
  if (!visitId.success) {
    const message = 'This form has lost its number: open it again from the well'
    return { ok: false, errors: { visitId: message }, questions: {} }
  }
  const occurredOn = visitDay(reader, context.today)
  const occurredTime = visitTime(reader)
  const byName = reader.optional('by', 'name', 120) ?? null
  const lines = [...testLines(kind, reader, context), ...noteLine(reader)]
  const { errors, questions } = reader
  if (Object.keys(errors).length > 0 || Object.keys(questions).length > 0)
    return { ok: false, errors, questions }
  return {
    ok: true,
    drafts: lines.map(({ slot, fact }) => ({
      id: lineId(visitId.data, slot),
      wellId: context.wellId,
      visitId: visitId.data,
      occurredOn,
      occurredTime,
      byName,
      supersedes: null,
      withdraws: null,
      payload: fact,
    })),
  }
}

function testLines(kind: TestKind, reader: Reader, context: TestContext): Line[] {
  const level = withUnit(reader, 'static', 'depth')
  const rest =
    level && levelStands(reader, 'static', level, { ...context, wellDepthM: context.well.wellDepthM })
  const measured = level && rest ? { static: level } : {}
  const flow = withUnit(reader, 'flow', 'flow')
  if (kind === 'step') return stepLines(reader, context, level, measured)
  const rows = timedRows(reader)
  if (rows.length === 0) {
    nothingRead(reader, 'No reading was taken yet: a test needs levels with their times')
    return []
  }
  const readings = rows.map(({ elapsed, level }) => ({ elapsed, level }))
  if (kind === 'recovery') {
    const fact: TestFact = { kind: 'recovery-test', ...measured, readings }
    question(reader, fact, context)
    return [{ slot: 'recovery', fact }, ...pumpedBefore(reader, flow)]
  }
  if (!level) askStatic(reader)
  if (!flow) {
    reader.refuse('flow', 'Enter the flow at which the well is pumped: time a bucket or read the meter')
    return []
  }
  const fact: TestFact = { kind: 'drawdown-test', ...measured, flow, readings }
  question(reader, fact, context)
  return [{ slot: 'drawdown', fact }]
}

function stepLines(
  reader: Reader,
  context: TestContext,
  level: StoredQuantity | undefined,
  measured: { static?: StoredQuantity },
): Line[] {
  const rows = stepRows(reader)
  if (rows.length === 0) {
    nothingRead(reader, 'No step was entered yet: each needs its flow, its minutes and the level at its end')
    return []
  }
  if (!level) askStatic(reader)
  const steps = rows.map(({ flow, duration, level }) => ({ flow, duration, level }))
  const fact: TestFact = { kind: 'step-test', ...measured, steps }
  question(reader, fact, context)
  return [{ slot: 'step', fact }]
}

/** What was pumped before the water was left to come back; kept as a flow reading of the same visit. */
function pumpedBefore(reader: Reader, flow: StoredQuantity | undefined): Line[] {
  const pumped = withUnit(reader, 'pumpedMinutes', 'minutes')
  if (pumped && !flow && reader.text('flow') === '') {
    reader.refuse('flow', 'Enter the flow too, or leave the minutes pumped blank')
  }
  const fact: Fact | null = flow ? { kind: 'flow-reading', flow, ...(pumped ? { pumped } : {}) } : null
  return fact ? [{ slot: 'flow', fact }] : []
}

/** Rows that were refused have their own sentence; this one is for a form without any. */
function nothingRead(reader: Reader, message: string): void {
  if (Object.keys(reader.errors).length === 0) reader.refuse('readings', message)
}

function askStatic(reader: Reader): void {
  if (reader.text('static') !== '') return
  reader.ask('static', {
    message: 'The level at rest is blank. Without it this test tells no drawdown and no capacity.',
    choices: [{ value: 'not-read', label: 'It was not read: keep the readings all the same' }],
  })
}

/**
 * Refusals that a slip of the pen or of the unit makes, or a pump that was not at rest: worth a question while the
 * person still stands at the well. Others (too few readings, scatter) are for the report to tell.
 */
const ODD: ReadonlySet<RefusalCode> = new Set([
  'wrong-unit',
  'above-static',
  'below-bottom',
  'pump-running',
  'rose-then-fell',
  'no-recovery',
  'no-drawdown',
  'mass-balance',
])

function question(reader: Reader, test: TestFact, { well }: TestContext): void {
  if (test.kind !== 'recovery-test' && !test.static) return
  // A row that was refused is missing here: the rest may look odd without it.
  if (Object.keys(reader.errors).length > 0) return
  const { fit } = testResult(testReadings(test), well)
  if (fit.kind === 'fit' || !ODD.has(fit.code)) return
  reader.ask('readings', {
    message: inUnits(fit.message, reader.system),
    choices: [{ ...AS_WRITTEN, label: 'I looked twice: keep it as written, and let the report say so' }],
  })
}
