import { describe, expect, test } from 'vitest'
import { appraise, reckon } from '@/lib/domain/logbook/appraise'
import type { Entry } from '@/lib/domain/logbook/entries'
import type { Fact } from '@/lib/domain/logbook/kinds'
import type { WellRegister } from '@/lib/domain/logbook/register'
import { RECKON_SETTINGS } from '@/lib/domain/logbook/settings'
import { readSupplyFacts, type SupplyFacts, supplyText } from '@/lib/domain/logbook/supply-facts'
import { type SupplyBasis, supplyBasis } from '@/lib/domain/logbook/supply-plan'
import { supplyItem } from '@/lib/domain/logbook/supply-standing'
import { simulateYear, supplyResult, tankWeeks } from '@/lib/domain/pump/supply'
import { toSi, type UnitId } from '@/lib/domain/quantity'

const typed = (value: number, unit: UnitId) => ({ si: toSi(value, unit), typed: `${value} ${unit}` })
const ALL = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]
const FROM = '2026-03-01'

/** A capacity of 20 L/min over 1 m: 4 m to the intake, water at 1 m in spring and 2.5 m in August. */
const facts: SupplyFacts = {
  drive: 'sun',
  flow: typed(20, 'L/min'),
  panel: typed(200, 'W'),
  uses: [{ name: 'house', daily: typed(600, 'L/d'), months: ALL }],
  setOn: '2026-01-01',
}
const side = { facts, latitudeDeg: 44, liftM: 1.2 }
const register: WellRegister = {
  installedOn: '2022-01-01',
  retiredOn: null,
  closed: null,
  wellDepthM: 4.5,
  casingBoreM: null,
  casingOutsideM: null,
  pitDiameterM: null,
  pitLengthM: null,
  pitWidthM: null,
  gravelPorosity: null,
  intakeDepthM: 4,
  demandM3PerS: toSi(500, 'L/d'),
  storageM3: 2,
  duties: [],
  supplySide: side,
}
const yields = {
  capacity: { m2PerS: toSi(20, 'L/min'), on: '2026-02-01' },
  baseline: { m2PerS: toSi(40, 'L/min'), low: 0, high: 1, since: '2022-01-01' },
}
let ids = 0
const fact = (on: string, one: Fact) => ({
  id: `e${ids++}`,
  spokenBy: 'x',
  visitId: `v${on}`,
  on,
  time: null,
  fact: one,
  byName: null,
})
const rest = (on: string, m: number) =>
  fact(on, { kind: 'level-reading', level: typed(m, 'm'), state: 'rest' })
const read = [rest('2025-03-10', 1), rest('2025-08-10', 2.5)]
const basisOf = (more: Partial<SupplyFacts> = {}, changed: Partial<WellRegister> = {}, levels = read) =>
  supplyBasis({ ...register, ...changed }, { ...side, facts: { ...facts, ...more } }, levels, yields, FROM)
const planOf = (basis: SupplyBasis) => {
  if (basis.kind === 'cannot-say') throw new Error(basis.missing.join('; '))
  return basis
}

describe('what is simulated', () => {
  test('is the flow at full sun, the capacity at each month’s level, and the tank', () => {
    const { plan, ground, baselineWellM3PerS } = planOf(basisOf())
    expect(plan).toMatchObject({ tankM3: 2, startM3: 2, noLiftMonths: [], pumpOff: [] })
    // 20 L/min a metre × (4 − 0.3 − 1) m in March, × (4 − 0.3 − 2.5) m in August and in every month without a reading.
    expect((plan.wellM3PerS[2] ?? 0) * 60_000).toBeCloseTo(20 * 2.7, 6)
    expect((plan.wellM3PerS[7] ?? 0) * 60_000).toBeCloseTo(20 * 1.2, 6)
    expect(plan.wellM3PerS[0]).toBe(plan.wellM3PerS[7])
    expect(ground.well.unseenMonths).toEqual([1, 2, 4, 5, 6, 7, 9, 10, 11, 12])
    expect((baselineWellM3PerS?.[2] ?? 0) / (plan.wellM3PerS[2] ?? 1)).toBeCloseTo(2, 9)
    if (plan.drive.kind !== 'panels') throw new Error(plan.drive.kind)
    expect(plan.drive.ratedW).toBe(200)
    expect(plan.drive.mostM3PerS).toBeCloseTo(20 / 60_000, 12)
    expect(plan.sunWPerM2).toHaveLength(8760)
  })

  test('has the demand of the register where nobody stated uses, and says so', () => {
    const { plan, ground } = planOf(basisOf({ uses: [] }))
    expect(ground.uses.from).toBe("the register's demand")
    expect(plan.uses[0]?.dailyM3[5]).toBeCloseTo(0.5, 9)
    const garden = [{ name: 'garden' as const, daily: typed(400, 'L/d'), months: [6, 7, 8] }]
    expect(
      planOf(basisOf({ uses: garden })).plan.uses[0]?.dailyM3.map((m3) => Math.round(m3 * 1000)),
    ).toEqual([0, 0, 0, 0, 0, 400, 400, 400, 0, 0, 0, 0])
  })

  test('takes the flow that was read where none is stated: the last on mains, the greatest in the sun', () => {
    const flows = [
      fact('2025-06-01', { kind: 'flow-reading', flow: typed(18, 'L/min') }),
      fact('2025-11-01', { kind: 'flow-reading', flow: typed(9, 'L/min') }),
      fact('2020-06-01', { kind: 'flow-reading', flow: typed(40, 'L/min') }),
    ].sort((a, b) => (a.on < b.on ? -1 : 1))
    const flowOf = (drive: SupplyFacts['drive']) =>
      planOf(basisOf({ drive, flow: undefined }, {}, [...read, ...flows])).ground.flow
    expect(flowOf('sun')).toMatchObject({ from: 'greatest read', on: '2025-06-01' })
    expect(flowOf('mains')).toMatchObject({ from: 'last read', on: '2025-11-01' })
  })

  test('is not simulated where something is missing, and names all of it', () => {
    const nothing = basisOf(
      { flow: undefined, uses: [] },
      { storageM3: null, demandM3PerS: null, intakeDepthM: null },
      [],
    )
    if (nothing.kind !== 'cannot-say') throw new Error('said')
    expect(nothing.missing.map((words) => words.split(' ').slice(0, 3).join(' '))).toEqual([
      'the flow of',
      'the storage tank',
      'the water asked',
      'a level at',
      'the depth of',
    ])
    const far = supplyBasis(register, { ...side, latitudeDeg: null }, read, yields, FROM)
    expect(far).toMatchObject({ kind: 'cannot-say' })
    expect(basisOf({ panel: typed(5, 'W') })).toMatchObject({
      kind: 'cannot-say',
      missing: [expect.stringContaining('cannot be lifted by panels of that power')],
    })
    const sun = { kind: 'energy' as const, values: new Array<number>(12).fill(40), source: 'a slip' }
    expect(basisOf({ sun })).toMatchObject({ missing: [expect.stringContaining('month 1')] })
  })

  test('reads a table of the sun in the three ways people have it', () => {
    const energy = (of: SupplyFacts['sun']) => {
      const { plan } = planOf(basisOf({ tiltDeg: 0, azimuthDeg: 0, sun: of }))
      const march = plan.sunWPerM2?.slice(0, 24 * 31) ?? new Float64Array()
      return march.reduce((sum, watts) => sum + watts, 0) / 31 / 1000
    }
    const twelve = (value: number) => new Array<number>(12).fill(value)
    const source = 'own'
    // kWh/m² a day comes back as it is: the table is for the level, and so is this plane.
    expect(
      energy({ kind: 'energy', values: [1.5, 2.2, 3.6, 4.8, 5.5, 6, 6.4, 5.6, 4.4, 2.9, 1.7, 1.3], source }),
    ).toBeCloseTo(3.6, 1)
    expect(energy({ kind: 'clearness', values: twelve(0.6), source })).toBeGreaterThan(
      energy({ kind: 'clearness', values: twelve(0.4), source }),
    )
    // Half the possible sunshine is a clearness of a half by the same formula.
    expect(
      energy({
        kind: 'sunshine',
        values: [4.6, 5.2, 5.95, 6.7, 7.3, 7.6, 7.5, 6.9, 6.2, 5.5, 4.8, 4.45],
        source,
      }),
    ).toBeCloseTo(energy({ kind: 'clearness', values: twelve(0.5), source }), 1)
  })
})

describe('the first short day', () => {
  const short: Partial<WellRegister> = { storageM3: 0.3 }
  const entries = (): Entry[] =>
    [
      { on: '2025-03-10', rest: 1, pumping: 2 },
      { on: '2025-08-10', rest: 2.5, pumping: 3.5 },
      { on: '2026-02-20', rest: 1.2, pumping: 2.2 },
    ].flatMap(({ on, rest: restM, pumping }, i) =>
      (
        [
          { kind: 'level-reading', level: typed(restM, 'm'), state: 'rest' },
          { kind: 'level-reading', level: typed(pumping, 'm'), state: 'pumping' },
          { kind: 'flow-reading', flow: typed(20, 'L/min'), pumped: typed(60, 'min') },
        ] satisfies Fact[]
      ).map((payload, line) => ({
        id: `${i} ${line}`,
        wellId: 'w',
        visitId: `v${i}`,
        occurredOn: on,
        occurredTime: null,
        payload,
        supersedes: null,
        withdraws: null,
        byName: null,
      })),
    )

  test('is due, with the ends that a fifth of the demand makes, and a reason', () => {
    const standing = appraise({ ...register, ...short }, entries(), RECKON_SETTINGS)
    const { supply, supplyItem: item } = standing
    if (supply?.kind !== 'year' || !item) throw new Error(JSON.stringify(supply))
    expect(supply.from).toBe('2026-02-20')
    expect(supply.shortDays).toBeGreaterThan(0)
    expect(item).toMatchObject({
      key: 'supply-runs-short',
      consequence: 'supply',
      basis: 'condition',
      due: supply.firstShortDay,
    })
    expect((item.from ?? '') <= (item.due ?? '')).toBe(true)
    if (item.to !== null) expect(item.to >= (item.due ?? '')).toBe(true)
    expect(item.reason).toContain('the tank first runs short on')
  })

  test('is not due where the tank is never short, nothing is stated, or the well is out of use', () => {
    const of = (changed: Partial<WellRegister>) =>
      reckon({ ...register, ...changed }, entries(), RECKON_SETTINGS).supply
    expect(supplyItem(of({ storageM3: 20 }))).toBeNull()
    expect(of({ storageM3: 20 })).toMatchObject({ kind: 'year', firstShortDay: null, shortDays: 0 })
    expect(of({ supplySide: null })).toBeNull()
    expect(of({ ...short, retiredOn: '2026-01-01' })).toBeNull()
    const unknown = of({ storageM3: null })
    expect(unknown).toMatchObject({ kind: 'cannot-say' })
    expect(supplyItem(unknown)).toBeNull()
  })
})

describe('facts of the supply', () => {
  test('are read back as they were stored, and nothing else is', () => {
    expect(readSupplyFacts(supplyText(facts))).toEqual(facts)
    for (const text of ['', 'spring fed', '{}', '[]', '{"drive":"wind","uses":[],"setOn":"2026-01-01"}']) {
      expect(readSupplyFacts(text), text).toBeNull()
    }
  })
})

test('the weeks of a year hold every hour of it, and every short day once', () => {
  const { plan } = planOf(basisOf({}, { storageM3: 0.3 }))
  const year = simulateYear(plan)
  const weeks = tankWeeks(year)
  expect(weeks).toHaveLength(53)
  expect(weeks.reduce((sum, week) => sum + week.shortDays, 0)).toBe(supplyResult(year, plan.tankM3).shortDays)
  expect(Math.min(...weeks.map((week) => week.lowM3))).toBe(Math.min(...year.tank))
  for (const { lowM3, medianM3, highM3 } of weeks) {
    expect(lowM3 <= medianM3 && medianM3 <= highM3).toBe(true)
  }
  const { shortHours, shortDays } = supplyResult(year, plan.tankM3)
  expect(shortHours).toBeGreaterThanOrEqual(shortDays)
  expect(shortHours).toBeLessThanOrEqual(24 * shortDays)
})
