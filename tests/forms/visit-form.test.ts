import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { entryDraftSchema, type Fact } from '@/lib/domain/logbook/kinds'
import { toSi } from '@/lib/domain/quantity/units'
import { trackUsage } from '@/lib/domain/upkeep'
import { correctionFields } from '@/lib/forms/correction-fields'
import { readCorrection } from '@/lib/forms/correction-form'
import type { VisitContext } from '@/lib/forms/visit/context'
import { readVisit } from '@/lib/forms/visit-form'

const VISIT = '019a0000-0000-7000-8000-0000000000aa'
const hours = trackUsage([
  { on: '2025-11-01', value: 900 * 3600, id: 'a', explained: null },
  { on: '2026-05-01', value: 1200 * 3600, id: 'b', explained: null },
])
const context: VisitContext = {
  wellId: 'w',
  today: '2026-11-20',
  system: 'us',
  duties: [{ key: 'change-sediment-cartridge', name: 'Change sediment cartridge' }],
  hours,
  volume: trackUsage([]),
  wellDepthM: 6,
}
const read = (fields: Record<string, string>, more: Partial<VisitContext> = {}) =>
  readVisit({ visitId: VISIT, date: '2026-11-20', ...fields }, { ...context, ...more })
const facts = (fields: Record<string, string>) => {
  const reading = read(fields)
  if (!reading.ok) throw new Error(JSON.stringify(reading))
  return reading.drafts.map((draft) => draft.payload)
}
const errors = (fields: Record<string, string>) => {
  const reading = read(fields)
  return reading.ok ? {} : reading.errors
}
const asked = (fields: Record<string, string>) => {
  const reading = read(fields)
  return reading.ok ? {} : reading.questions
}

/** One filled form that writes every kind of line at once. */
const FULL: Record<string, string> = {
  'duty:change-sediment-cartridge': 'done',
  otherWork: 'Greased the cap',
  partKind1: 'cartridge',
  partCount1: '2',
  partWarranty1: '24 months',
  staticLevel: `6' 3"`,
  pumpingLevel: '8 ft',
  flow: '9 gpm',
  pumpedMinutes: '45',
  hourMeter: '1,350',
  volumeMeter: '1,200 gal',
  pressureBefore: '44',
  pressureAfter: '38',
  pressureCartridge: 'old',
  valveBefore: '40',
  valveAfter: '39.5',
  valveMinutes: '10',
  brush1: '0.61',
  brush2: '0.6',
  amps: '4.2',
  volts: '48',
  recoveryStatic: '6.2',
  recoveryReadings: '0, 8.6\n2, 7.9\n5; 7.2',
  drawdownFlow: '9',
  drawdownReadings: '0 6.2\n10 7.8',
  stepReadings: '5, 30, 7\n9, 30, 8.4',
  sampleDate: '2026-11-19',
  sampleTime: '9:40',
  receivedDate: '2026-11-19',
  receivedTime: '13:05',
  analysedDate: '2026-11-19',
  analysedTime: '14:00',
  receivedTemp: '41',
  chlorinated: 'no',
  sampler: 'Maren',
  samplePurpose: 'resample',
  enteredBy: 'owner',
  confirmedBy: 'Robin Fern',
  sampleResults:
    'Analyte\tResult\tUnit\tQualifier\nE. coli\tAbsent\nNitrate\t1.2\tmg/L\tJ\nColiform\tPresent',
  'row:nitrate-1-p-2-mg-l:form': 'NO3',
  'row:nitrate-1-p-2-mg-l:leftOut': 'bottle cracked',
  'row:coliform-present:analyte': 'total-coliform',
  'sanitary:q1': 'no',
  'sanitary:q2': 'not-sure',
  'water:notice': 'done',
  noticeKind: 'boil',
  noticeTo: 'the Mabe household',
  noticeHow: 'by hand',
  'water:disinfected': 'done',
  doseTarget: '100',
  doseProduct: 'plain bleach',
  doseStrength: '5.25',
  doseVolume: '0.4',
  doseMass: '12',
  doseContact: '12',
  'water:flushed': 'done',
  chlorineGone: 'yes',
  flushWhere: 'outside tap, to the lawn',
  'water:remedied': 'done',
  remedyWhat: 'bottled water for the baby',
  'water:well-repaired': 'done',
  repairWhat: 'new seal',
  'water:chain-closed': 'done',
  closedBy: 'Robin Fern',
  closedReason: 'well abandoned',
  'water:test-again': 'done',
  againEvent: 'infant',
  waterChain: 'bacteria',
  event: 'flooded',
  note: 'Gate was open',
}

describe('a visit form', () => {
  test('writes every kind of line of one visit, each under an id of its own that is the same when sent again', () => {
    const reading = read(FULL)
    if (!reading.ok) throw new Error(JSON.stringify(reading))
    const kinds = reading.drafts.map((draft) => draft.payload.kind)
    expect(new Set(kinds)).toEqual(
      new Set([
        'service-done',
        'meter-reading',
        'level-reading',
        'flow-reading',
        'pressure-reading',
        'valve-test',
        'brush-length',
        'electrical-reading',
        'recovery-test',
        'drawdown-test',
        'step-test',
        'sample',
        'sanitary-inspection',
        'water-step',
        'event',
        'note',
      ]),
    )
    const ids = reading.drafts.map((draft) => draft.id)
    expect(new Set(ids).size).toBe(ids.length)
    const again = read(FULL)
    expect(again.ok && again.drafts.map((draft) => draft.id)).toEqual(ids)
    for (const draft of reading.drafts) expect(entryDraftSchema.safeParse(draft).success).toBe(true)
  })

  test('keeps what was typed beside the value in SI', () => {
    const [level] = facts({ staticLevel: `6' 3"` })
    // 6 ft 3 in = 6.25 ft = 1.905 m exactly.
    expect(level).toMatchObject({
      kind: 'level-reading',
      level: { si: expect.closeTo(1.905, 9), typed: `6' 3"` },
    })
  })

  test('leaves out what is blank, and never stores it as zero', () => {
    expect(facts({ flow: '0.5', staticLevel: '', hourMeter: ' ' }).length).toBe(1)
  })

  test.each([
    [{}, 'note', /Nothing was written yet/],
    [{ date: '', note: 'x' }, 'date', /Enter the day/],
    [{ date: '2027-01-02', note: 'x' }, 'date', /today or earlier/],
    [{ date: '2026-02-30', note: 'x' }, 'date', /./],
    [{ time: '25:00', note: 'x' }, 'time', /./],
    [{ flow: 'nine' }, 'flow', /./],
    [{ flow: '12,5' }, 'flow', /two ways/],
    [{ staticLevel: '4 psi' }, 'staticLevel', /./],
    [{ pumpedMinutes: '30' }, 'flow', /Enter the flow too/],
    [{ partKind1: 'pump' }, 'partKind1', /Tick the work/],
    [{ otherWork: 'x', partModel1: 'y' }, 'partKind1', /Choose what kind/],
    [{ otherWork: 'x', partKind1: 'pump', partCount1: '0' }, 'partCount1', /1 to 99/],
    [{ recoveryReadings: '1 2 3' }, 'recoveryReadings', /Line 1/],
    [{ recoveryStatic: '6' }, 'recoveryReadings', /one a line/],
    [{ drawdownReadings: '0, 6\n1, 7' }, 'drawdownFlow', /Enter the flow/],
    [{ stepReadings: '5, 30' }, 'stepReadings', /flow, minutes, level/],
    [{ sampleResults: 'E. coli, Absent' }, 'sampleDate', /Enter the day/],
    [{ sampleDate: '2026-11-19' }, 'sampleResults', /Enter the results/],
    [{ event: 'meter-replaced' }, 'eventMeter', /which meter/],
    [{ 'water:notice': 'done', noticeTo: 'all' }, 'noticeKind', /which notice/],
    [{ 'water:notice': 'done', noticeKind: 'boil' }, 'noticeTo', /who was told/],
    [{ doseTarget: '100' }, 'water:disinfected', /Tick this too/],
    [{ 'water:disinfected': 'done', doseTarget: '100 ppm' }, 'doseTarget', /number of mg/],
    [{ 'water:disinfected': 'done', doseStrength: '0' }, 'doseStrength', /at most 100/],
    [{ 'water:flushed': 'done' }, 'chlorineGone', /still found/],
    [{ 'water:remedied': 'done' }, 'remedyWhat', /what was done/],
    [{ 'water:well-repaired': 'done' }, 'repairWhat', /repaired/],
    [{ 'water:chain-closed': 'done', closedReason: 'x' }, 'closedBy', /person with a name/],
    [{ 'water:chain-closed': 'done', closedBy: 'x' }, 'closedReason', /why the chain/],
    [{ 'water:test-again': 'done' }, 'againEvent', /Choose what happened/],
    [{ note: 'x'.repeat(4001) }, 'note', /4000/],
  ] as [Record<string, string>, string, RegExp][])(
    'refuses %j in one sentence beside %s',
    (fields, field, says) => {
      const said = errors(fields)[field]
      expect(said).toMatch(says)
      expect(said).not.toMatch(/please|sorry|valid|oops|forbidden/i)
    },
  )
})

describe('an odd value', () => {
  test('of a meter is asked about, and the answer is kept with it', () => {
    expect(asked({ hourMeter: '12' }).hourMeter?.message).toMatch(/less than/)
    expect(asked({ hourMeter: '99,000' }).hourMeter).toBeDefined()
    for (const answer of ['replaced', 'rolled-over', 'kept'] as const) {
      expect(facts({ hourMeter: '12', 'answer:hourMeter': answer })[0]).toMatchObject({ explained: answer })
    }
    expect(asked({ hourMeter: '12', 'answer:hourMeter': 'whatever' }).hourMeter).toBeDefined()
  })

  test('of a level below the bottom, above the rest level, or swapped pressures is asked about', () => {
    expect(asked({ staticLevel: '40' }).staticLevel?.message).toMatch(/deeper than the well/)
    expect(asked({ staticLevel: '8', pumpingLevel: '6' }).pumpingLevel?.message).toMatch(/swapped/)
    expect(asked({ pressureBefore: '30', pressureAfter: '40' }).pressureAfter?.message).toMatch(/swapped/)
    expect(facts({ staticLevel: '40', 'answer:staticLevel': 'sure' }).length).toBe(1)
    const metric = readVisit(
      { visitId: VISIT, date: '2026-11-20', staticLevel: '8' },
      { ...context, system: 'metric' },
    )
    expect(metric.ok ? '' : metric.questions.staticLevel?.message).toMatch(/looks like feet/)
  })
})

describe('a lab sheet on the form', () => {
  const sheet = (results: string, more: Record<string, string> = {}) => {
    const [fact] = facts({ sampleDate: '2026-11-19', sampleResults: results, ...more })
    if (fact?.kind !== 'sample') throw new Error('no sample')
    return fact
  }
  test('keeps letters beside results, the answers about a row, and what the laboratory says of the bottles', () => {
    const full = facts(FULL).find((fact) => fact.kind === 'sample')
    expect(full).toMatchObject({
      analysedAt: '2026-11-19T14:00',
      // 41 °F = 5 °C = 278.15 K exactly.
      receivedTemp: { si: expect.closeTo(278.15, 9), typed: '41' },
      chlorinated: 'no',
      purpose: 'resample',
      enteredBy: 'owner',
      confirmedBy: 'Robin Fern',
      results: [
        { analyte: 'E. coli', result: 'Absent' },
        {
          qualifier: 'J',
          answers: [{ question: 'form', answer: 'NO3' }],
          leftOut: 'bottle cracked',
        },
        { analyte: 'Coliform', analyteId: 'total-coliform' },
      ],
    })
  })
  test('an answer stays with its row when a line comes before it, and goes when the row is changed', () => {
    const answer = { 'row:nitrate-12-mg-l:form': 'N' }
    const answers = (text: string) => sheet(text, answer).results.map((row) => row.answers)
    expect(answers('Lead, <1, µg/L\nNitrate, 12, mg/L')).toEqual([
      undefined,
      [{ question: 'form', answer: 'N' }],
    ])
    expect(answers('Nitrate, 12.5, mg/L')).toEqual([undefined])
    expect(answers('Nitrate, <12, mg/L')).toEqual([undefined])
  })
})

test('junk in any field is never thrown at anybody, and never makes half a visit', () => {
  const names = [...Object.keys(FULL), 'date', 'time', 'eventMeter', 'answer:hourMeter', 'visitId']
  const junk = fc.oneof(
    fc.string({ maxLength: 40 }),
    fc.constantFrom('-5', '1e9', '∞', '1,2,3', '9 gpm', '2\' 4"', '\t', '٣'),
  )
  fc.assert(
    fc.property(fc.dictionary(fc.constantFrom(...names), junk, { maxKeys: 12 }), (fields) => {
      const reading = read({ ...fields, visitId: VISIT })
      if (reading.ok)
        for (const draft of reading.drafts) expect(entryDraftSchema.safeParse(draft).success).toBe(true)
      else
        expect(Object.keys(reading.errors).length + Object.keys(reading.questions).length).toBeGreaterThan(0)
    }),
    { numRuns: 500 },
  )
})

test('the form that corrects a line reads back what the line says, for every kind', () => {
  for (const payload of facts(FULL)) {
    if (payload.kind === 'correction' || payload.kind === 'withdrawal') continue
    const typed = Object.fromEntries(
      correctionFields(payload, context.system).map(({ name, value }) => [name, value]),
    )
    const answer = { 'answer:hourMeter': 'kept', 'answer:pumpingLevel': 'sure' }
    const reading = readCorrection(
      { ...typed, ...answer, date: '2026-11-20', reason: 'the same again' },
      payload,
      { ...context, hours: trackUsage([]) },
    )
    expect(reading.ok ? reading.correction.replacement : reading, payload.kind).toEqual(payload)
  }
})

test('a bare number is offered to a reader of other units with the unit it was typed in', () => {
  const amount = (si: number, typed: string) => ({ si, typed })
  const drawdown: Fact = {
    kind: 'drawdown-test',
    static: amount(6 * 0.3048, '6'),
    flow: amount(toSi(9, 'gal/min'), '9'),
    readings: [{ elapsed: amount(300, '5'), level: amount(7.5 * 0.3048, '7.5') }],
  }
  const values = (system: 'us' | 'metric') => correctionFields(drawdown, system).map(({ value }) => value)
  expect(values('us')).toEqual(['6', '9', '5; 7.5'])
  expect(values('metric')).toEqual(['6 ft', '9 gal/min', '5; 7.5 ft'])
  const typed = Object.fromEntries(
    correctionFields(drawdown, 'metric').map(({ name, value }) => [name, value]),
  )
  const reading = readCorrection({ ...typed, date: '2026-11-20', reason: 'the day' }, drawdown, {
    ...context,
    system: 'metric',
  })
  if (!reading.ok) throw new Error(JSON.stringify(reading))
  expect(reading.correction.replacement).toMatchObject({
    static: { si: 6 * 0.3048 },
    readings: [{ elapsed: { si: 300 }, level: { si: 7.5 * 0.3048 } }],
  })
})

test('a row taken out of a lab sheet is still asked for, until a person says that it was not', () => {
  const before: Fact = {
    kind: 'sample',
    sampledAt: '2026-11-19T09:40',
    results: [
      { analyte: 'E. coli', result: 'Absent' },
      { analyte: 'Arsenic', result: '22', unit: 'ug/L' },
    ],
  }
  const correct = (fact: Fact, more: Record<string, string>) => {
    const typed = Object.fromEntries(
      correctionFields(fact, context.system).map(({ name, value }) => [name, value]),
    )
    const reading = readCorrection({ ...typed, date: '2026-11-20', reason: 'x', ...more }, fact, context)
    if (!reading.ok) throw new Error(JSON.stringify(reading))
    return reading.correction.replacement
  }
  const without = correct(before, { sampleResults: 'E. coli, Absent' })
  expect(without).toMatchObject({ asked: ['arsenic'], results: [{ analyte: 'E. coli' }] })
  expect(correct(without, {})).toEqual(without)
  expect(correct(without, { sampleAsked: '' })).not.toHaveProperty('asked')
})

test('a correction needs a reason, and a line left empty is to be withdrawn', () => {
  const fields = { date: '2026-11-20', note: '' }
  const note = { kind: 'note' as const, text: 'y' }
  const reading = readCorrection({ ...fields, reason: 'x' }, note, context)
  expect(reading.ok ? '' : reading.errors.reason).toMatch(/withdraw it/)
  const silent = readCorrection({ ...fields, note: 'y' }, note, context)
  expect(silent.ok ? '' : silent.errors.reason).toMatch(/why/)
})
