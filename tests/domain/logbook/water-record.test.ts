import { describe, expect, test } from 'vitest'
import { appraise, reckon } from '@/lib/domain/logbook/appraise'
import type { Entry } from '@/lib/domain/logbook/entries'
import { type Fact, factSchema } from '@/lib/domain/logbook/kinds'
import type { WellRegister } from '@/lib/domain/logbook/register'
import { RECKON_SETTINGS, reckonChoices, reckonSettingsOf } from '@/lib/domain/logbook/settings'
import type { Duty } from '@/lib/domain/upkeep/types'

const BARE: WellRegister = {
  installedOn: '2020-05-01',
  retiredOn: null,
  closed: null,
  wellDepthM: null,
  casingBoreM: null,
  casingOutsideM: null,
  pitDiameterM: null,
  pitLengthM: null,
  pitWidthM: null,
  gravelPorosity: null,
  intakeDepthM: null,
  demandM3PerS: null,
  storageM3: null,
  duties: [],
}
const duty = (name: string, everyMonths = 12, lastDoneOn: string | null = null): Duty & { id: string } => ({
  id: name,
  key: name.toLowerCase().replaceAll(' ', '-'),
  name,
  consequence: 'health',
  everyMonths,
  everyRunS: null,
  everyM3: null,
  condition: null,
  lastDoneOn,
})

/** Lines of a logbook, each with its day; every fact is checked against the shape that is stored. */
function logbook(...lines: [on: string, fact: Fact][]): Entry[] {
  return lines.map(([on, fact], i) => ({
    id: String(i).padStart(4, '0'),
    wellId: 'w',
    visitId: 'v',
    occurredOn: on,
    occurredTime: null,
    payload: factSchema.parse(fact),
    supersedes: null,
    withdraws: null,
    byName: 'Maren',
  }))
}
type SampleFact = Extract<Fact, { kind: 'sample' }>
const sheet = (on: string, rows: SampleFact['results'], more: Partial<SampleFact> = {}): [string, Fact] => [
  on,
  { kind: 'sample', sampledAt: `${on}T09:00`, receivedAt: `${on}T13:00`, results: rows, ...more },
]
const absent = { analyte: 'Total coliform', result: 'Absent' }
const nitrate = { analyte: 'Nitrate as N', result: '1.2', unit: 'mg/L' }
const CLEAR = [absent, nitrate]
const FOUND = [
  { analyte: 'Total coliform', result: 'Present' },
  { analyte: 'E. coli', result: '12', unit: 'MPN/100 mL' },
  nitrate,
]
const stand = (entries: Entry[], register: Partial<WellRegister> = {}, settings = RECKON_SETTINGS) =>
  appraise({ ...BARE, ...register }, entries, settings)
const whole = (entries: Entry[]) => reckon(BARE, entries, RECKON_SETTINGS).water

const STEPS: [string, Fact][] = [
  ['2026-05-12', { kind: 'water-step', step: 'notice', notice: 'boil', to: 'the household' }],
  [
    '2026-05-14',
    {
      kind: 'water-step',
      step: 'disinfected',
      targetMgL: 100,
      contact: { si: 12 * 3600, typed: '12 h' },
    },
  ],
  ['2026-05-15', { kind: 'water-step', step: 'flushed', chlorineGone: 'yes' }],
]
const POSITIVE = sheet('2026-05-10', FOUND)

describe('a chain kept as lines of the logbook', () => {
  const summary = (...lines: [string, Fact][]) => stand(logbook(...lines)).water

  test('its banner says since when, what is next and which notice, and the step moves with each line', () => {
    expect(summary(POSITIVE)).toMatchObject({
      verdict: 'exceeds',
      notice: 'boil',
      chains: [{ key: 'bacteria', openedOn: '2026-05-10', notice: 'boil', fault: null }],
    })
    const next = (lines: [string, Fact][]) => summary(POSITIVE, ...lines).chains[0]?.next
    expect(next([])).toMatch(/boil the water first/)
    expect(next(STEPS.slice(0, 1))).toMatch(/Disinfect the well/)
    expect(next(STEPS.slice(0, 2))).toMatch(/Flush the chlorine/)
    expect(next(STEPS)).toMatch(/sample again on 19 May 2026 or later/)
    expect(summary(POSITIVE, ...STEPS).chains[0]?.earliest).toBe('2026-05-19')
  })

  test('two clear samples a week apart end it; one does not', () => {
    const first = sheet('2026-05-20', CLEAR)
    expect(summary(POSITIVE, ...STEPS, first)).toMatchObject({
      verdict: 'inconclusive',
      chains: [{ earliest: '2026-05-27' }],
    })
    expect(summary(POSITIVE, ...STEPS, first, sheet('2026-05-27', CLEAR))).toMatchObject({
      verdict: 'meets',
      chains: [],
      notice: null,
    })
  })

  test.each([
    ['late', { receivedAt: '2026-05-30T09:00' }],
    ['warm', { receivedTemp: { si: 273.15 + 15, typed: '15 C' } }],
    ['of chlorinated water', { chlorinated: 'yes' as const }],
    ['of an owner, unconfirmed', { enteredBy: 'owner' as const }],
    ['begun late', { analysedAt: '2026-05-29T09:00' }],
  ])('a last sample that is %s does not end it', (_, more) => {
    const lines = [POSITIVE, ...STEPS, sheet('2026-05-20', CLEAR)]
    expect(summary(...lines, sheet('2026-05-27', CLEAR, more)).chains).toHaveLength(1)
    // The same sheet in good order does.
    const mended = { ...more, receivedAt: '2026-05-27T13:00', receivedTemp: undefined, analysedAt: undefined }
    const good = sheet('2026-05-27', CLEAR, { ...mended, chlorinated: 'no', confirmedBy: 'Robin Fern' })
    expect(summary(...lines, good).chains).toEqual([])
  })

  test('what an owner entered can open a chain, and is not "meets" until somebody confirms it', () => {
    expect(summary(sheet('2026-05-10', FOUND, { enteredBy: 'owner' })).chains).toHaveLength(1)
    expect(summary(sheet('2026-05-10', CLEAR, { enteredBy: 'owner' })).verdict).toBe('inconclusive')
    expect(summary(sheet('2026-05-10', CLEAR, { enteredBy: 'owner', confirmedBy: 'R' })).verdict).toBe(
      'meets',
    )
  })

  test('a boil notice is no notice for nitrate; chlorine that is still there is no flush', () => {
    const high = sheet('2026-05-10', [absent, { ...nitrate, result: '14' }])
    expect(summary(high, ...STEPS).chains[0]).toMatchObject({ key: 'nitrate', notice: 'do-not-drink' })
    expect(summary(high, ...STEPS).chains[0]?.next).toMatch(/do not boil/)
    const told: [string, Fact] = [
      '2026-05-12',
      { kind: 'water-step', step: 'notice', notice: 'do-not-drink', to: 'all' },
    ]
    expect(summary(high, told).chains[0]?.next).toMatch(/Find the cause/)
    const still: [string, Fact] = ['2026-05-15', { kind: 'water-step', step: 'flushed', chlorineGone: 'no' }]
    expect(summary(POSITIVE, ...STEPS.slice(0, 2), still).chains[0]?.next).toMatch(/Flush the chlorine/)
  })

  test('a named person ends one chain by its key and leaves the other', () => {
    const both = sheet('2026-05-10', [...FOUND.slice(0, 2), { ...nitrate, result: '14' }])
    const closed: [string, Fact] = [
      '2026-06-01',
      { kind: 'water-step', step: 'chain-closed', by: 'Robin Fern', reason: 'treated', chain: 'nitrate' },
    ]
    expect(summary(both).chains.map(({ key }) => key)).toEqual(['bacteria', 'nitrate'])
    expect(summary(both).notice).toBe('do-not-drink')
    expect(summary(both, closed).chains.map(({ key }) => key)).toEqual(['bacteria'])
  })

  test('bacteria after a proper disinfection are told as a fault; after a repair the slate is clean', () => {
    const again = sheet('2026-05-25', FOUND)
    expect(summary(POSITIVE, ...STEPS, again).chains[0]?.fault).toMatch(/fault in the well/)
    const mended: [string, Fact] = ['2026-05-22', { kind: 'water-step', step: 'well-repaired', what: 'seal' }]
    expect(summary(POSITIVE, ...STEPS, mended, again).chains[0]?.fault).toBeNull()
  })

  test('a step that is withdrawn is not done', () => {
    const entries = logbook(POSITIVE, ...STEPS)
    const withdrawal: Entry = {
      ...(entries[1] as Entry),
      id: '0099',
      payload: { kind: 'withdrawal', reason: 'wrong well' },
      withdraws: '0001',
    }
    expect(stand([...entries, withdrawal]).water.chains[0]?.next).toMatch(/boil the water first/)
  })
})

describe('what a person said of a row', () => {
  const row = { analyte: 'Nitrate', result: '12', unit: 'mg/L' }
  const verdict = (more: Partial<SampleFact['results'][number]>) =>
    whole(logbook(sheet('2026-05-10', [absent, { ...row, ...more }]))).findings.find(
      ({ analyte }) => analyte === 'nitrate',
    )
  test('settles it: 12 mg/L as N exceeds 10, 12 mg/L as NO3 (2.7 as N) meets; unanswered it is open', () => {
    expect(verdict({})?.verdict).toBe('inconclusive')
    expect(verdict({ answers: [{ question: 'form', answer: 'N' }] })?.verdict).toBe('exceeds')
    expect(verdict({ answers: [{ question: 'form', answer: 'NO3' }] })?.verdict).toBe('meets')
    expect(verdict({ answers: [{ question: 'form', answer: 'gallons' }] })?.verdict).toBe('inconclusive')
  })
  test('names the analyte of a doubtful name, and a row left out never helps', () => {
    const bacteria = (more: Partial<SampleFact['results'][number]>) =>
      whole(logbook(sheet('2026-05-10', [{ analyte: 'Coliform', result: 'Absent', ...more }, nitrate])))
        .verdict
    expect(bacteria({})).not.toBe('meets')
    expect(bacteria({ analyteId: 'total-coliform' })).toBe('meets')
    expect(bacteria({ analyteId: 'total-coliform', leftOut: 'bottle cracked' })).toBe('inconclusive')
  })
  test('a sheet with decimal commas is read as such', () => {
    const comma = whole(
      logbook(sheet('2026-05-10', [absent, { ...nitrate, result: '1,200' }], { decimals: 'comma' })),
    )
    expect(comma.findings.find(({ analyte }) => analyte === 'nitrate')?.measured?.high).toBe(1.2)
  })
})

describe('rows beside the tests', () => {
  const verdict = (row: SampleFact['results'][number], more: Partial<SampleFact> = {}) =>
    whole(logbook(sheet('2026-05-10', [...CLEAR, row], more)))
  test('a temperature holds no sample back; a name nobody knows does', () => {
    expect(verdict({ analyte: 'Temperature', result: '54 F' }).verdict).toBe('meets')
    expect(verdict({ analyte: 'Tannin', result: '0.4', unit: 'mg/L' }).verdict).toBe('meets')
    expect(verdict({ analyte: 'Arsenlc', result: '22', unit: 'µg/L' }).verdict).toBe('not-tested')
  })
  test('chlorine that was measured means chlorinated water, and clears no chain', () => {
    const chlorine = { analyte: 'Free chlorine', result: '0.4', unit: 'mg/L' }
    const open = (last: [string, Fact]) =>
      stand(logbook(POSITIVE, ...STEPS, sheet('2026-05-20', CLEAR), last)).water.chains.length
    expect(open(sheet('2026-05-27', [...CLEAR, chlorine]))).toBe(1)
    expect(open(sheet('2026-05-27', [...CLEAR, { ...chlorine, result: '<0.05' }]))).toBe(0)
    expect(open(sheet('2026-05-27', [...CLEAR, chlorine], { chlorinated: 'no' }))).toBe(1)
  })
})

describe('the sanitary inspection', () => {
  const answers = Object.fromEntries(Array.from({ length: 12 }, (_, i) => [`q${i + 1}`, 'no' as const]))
  const inspected = (more: object): [string, Fact] => [
    '2026-05-11',
    { kind: 'sanitary-inspection', form: 'who-dug-well', answers: { ...answers, ...more } },
  ]
  test('reaches the standing with its score, its risks and the combined reading with E. coli', () => {
    const low = whole(logbook(sheet('2026-05-10', CLEAR), inspected({ q8: 'yes', q9: 'not-sure' }))).sanitary
    expect(low).toMatchObject({
      on: '2026-05-11',
      inspection: { kind: 'scored', yes: 1 },
      risks: ['Does water pond on the concrete floor?'],
      open: ['Are there cracks in the concrete floor?'],
      coli: { on: '2026-05-10' },
      combined: { kind: 'risk', risk: 'low' },
    })
    const high = whole(logbook(sheet('2026-05-10', FOUND), inspected({})))
    expect(high.sanitary?.combined).toMatchObject({ risk: 'high', because: 'bacteria' })
  })
  test('without E. coli there is no combined reading, and without an inspection none at all', () => {
    expect(whole(logbook(inspected({}))).sanitary?.combined).toMatchObject({ kind: 'cannot-say' })
    expect(whole(logbook(sheet('2026-05-10', CLEAR))).sanitary).toBeNull()
  })
})

describe('what the water puts on the due list', () => {
  const METALS = { analyte: 'Arsenic', result: '<1', unit: 'µg/L', reportingLimit: '1' }
  const tested = sheet('2025-06-10', [...CLEAR, METALS])
  const items = (lines: [string, Fact][], register: Partial<WellRegister> = {}) =>
    stand(logbook(...lines), register).waterItems.map(({ key, due }) => [key, due])

  test('a well never tested has one item, due since it was built; unknown where that is', () => {
    expect(items([])).toEqual([['water-first-test', '2020-05-01']])
    expect(items([], { installedOn: null })).toEqual([['water-first-test', null]])
    expect(items([], { retiredOn: '2024-01-01' })).toEqual([])
  })
  test('each test once by its interval, and the next step of a chain', () => {
    expect(items([tested])).toEqual([
      ['water-test-bacteria', '2026-06-10'],
      ['water-test-nitrate', '2026-06-10'],
      ['water-test-metals', '2028-06-10'],
    ])
    expect(items([tested, POSITIVE])[0]).toEqual(['water-chain-bacteria', '2026-05-10'])
    expect(items([tested, POSITIVE, ...STEPS])[0]).toEqual(['water-chain-bacteria', '2026-05-19'])
  })
  test('a late sample is no test: the item stays where it was', () => {
    const late = sheet('2026-05-01', CLEAR, { receivedAt: '2026-05-05T09:00' })
    expect(items([tested, late])[0]).toEqual(['water-test-bacteria', '2026-06-10'])
  })

  const WITH = { duties: [duty('Bacteria sample', 12, '2025-06-10'), duty('Wider water panel', 36)] }
  const dutyOf = (lines: [string, Fact][], key = 'bacteria-sample', register: Partial<WellRegister> = WITH) =>
    stand(logbook(...lines), register).duties.find((each) => each.key === key)

  test('where an ordinary duty says the same there is one item, not two', () => {
    expect(items([tested], WITH)).toEqual([['water-test-nitrate', '2026-06-10']])
    expect(dutyOf([tested])?.due).toBe('2026-06-10')
  })
  test('the earlier date wins and the reason says why', () => {
    const flood: [string, Fact] = ['2025-09-01', { kind: 'event', event: 'flooded' }]
    expect(dutyOf([tested, flood])).toMatchObject({
      due: '2025-09-01',
      reason: expect.stringMatching(/After a flood.*Last result of 10 Jun 2025.*US EPA/),
    })
    // A duty of every three months comes before the yearly test, and keeps its own reason.
    const often = { duties: [duty('Bacteria sample', 3)] }
    expect(dutyOf([tested], 'bacteria-sample', often)).toMatchObject({ due: '2025-09-10' })
  })
  test('a lab sheet counts as the duty done; a sample without its sheet is told', () => {
    expect(dutyOf([sheet('2026-02-01', CLEAR)])?.due).toBe('2027-02-01')
    const ticked: [string, Fact] = [
      '2026-06-01',
      { kind: 'service-done', duties: ['bacteria-sample'], names: [], parts: [] },
    ]
    expect(dutyOf([tested, ticked])).toMatchObject({
      due: '2026-06-10',
      reason: expect.stringContaining(
        'A sample was taken on 1 Jun 2026; its sheet is not in the logbook yet.',
      ),
    })
  })
  test('a day written in the register is not set aside because the sheet of it was never entered', () => {
    expect(dutyOf([])?.due).toBe('2026-06-10')
  })
  test('the command counts only the work written down', () => {
    const register = { ...BARE, ...WITH }
    const [plain] = reckon(register, logbook(sheet('2026-02-01', CLEAR)), RECKON_SETTINGS).duties
    expect(plain?.due).toBe('2026-06-10')
  })
})

describe('settings', () => {
  const local = {
    analyte: 'nitrate',
    kind: 'health' as const,
    max: 1,
    unit: 'mg/L as N',
    source: 'county rule 7',
    date: '2024',
  }
  test('a local limit wins, and one whose unit cannot be read is refused', () => {
    const choices = reckonChoices.parse({ local: [local], scheme: 'who' })
    expect(stand(logbook(sheet('2026-05-10', CLEAR)), {}, reckonSettingsOf(choices)).water).toMatchObject({
      verdict: 'exceeds',
      exceeds: ['Nitrate'],
      schemeName: 'WHO guideline values with limits of the outfit’s own',
    })
    expect(reckonChoices.safeParse({ local: [{ ...local, unit: 'bushels' }] }).success).toBe(false)
    expect(reckonChoices.safeParse({ local: [{ ...local, analyte: 'unobtainium' }] }).success).toBe(false)
  })
})
