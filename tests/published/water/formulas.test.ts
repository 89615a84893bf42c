/** Unit factors, hardness, balance, indices and MPN against published examples; the source stands with each check. */
import { describe, expect, test } from 'vitest'
import { findAnalyte } from '@/lib/domain/water/analytes'
import {
  alkalinityFrom,
  hardnessFrom,
  ionBalance,
  sodiumPercent,
  solidsSumAgrees,
} from '@/lib/domain/water/consistency'
import { hypochlorousShare } from '@/lib/domain/water/disinfect'
import {
  aggressiveness,
  langelier,
  langelierThermodynamic,
  ryznar,
  sodiumAdsorption,
} from '@/lib/domain/water/indices'
import { mostProbableNumber, WELLS_51, WELLS_97 } from '@/lib/domain/water/mpn'
import { readUnit, toHome } from '@/lib/domain/water/units'
import { type Check, checksOf, input } from './read'

function agree(topic: string, least: number, reckon: (check: Check) => number): void {
  const checks = checksOf(topic)
  describe(topic, () => {
    test(`has at least ${least} checks`, () => expect(checks.length).toBeGreaterThanOrEqual(least))
    test.each(checks.map((check) => [`${check.id} (${check.source}, ${check.seen})`, check] as const))(
      '%s',
      (_, check) => {
        expect(Math.abs(reckon(check) - check.expected.value)).toBeLessThanOrEqual(
          check.expected.tolerance + 1e-9,
        )
      },
    )
  })
}

/** The factor from a unit to the home unit of an analyte. */
function factor(id: string, unit: string): number {
  const analyte = findAnalyte(id)
  if (!analyte) throw new Error(id)
  const conversion = toHome(analyte, readUnit(unit), null)
  if (conversion.kind !== 'factor') throw new Error(`${id} in ${unit}`)
  return conversion.factor
}

agree('nitrate as N to as NO3', 5, (check) => input(check, 'nitrateN_mgL') / factor('nitrate', 'mg/L as NO3'))
agree('nitrite as N to as NO2', 1, (check) => input(check, 'asN_mgL') / factor('nitrite', 'mg/L as NO2'))
agree('ammonia as N to as NH4', 6, (check) => input(check, 'asN_mgL') / factor('ammonia', 'mg/L as NH4'))
agree('WHO nitrate basis', 1, (check) => input(check, 'guideline') * factor('nitrate', 'mg/L as NO3'))
agree('EPA MCL as ion', 1, (check) => input(check, 'mclN') / factor('nitrate', 'mg/L as NO3'))
agree(
  'hardness units',
  4,
  (check) =>
    input(check, 'mgL') /
    factor(
      'hardness',
      check.inputs.unit === 'dH'
        ? '°dH'
        : check.inputs.unit === 'fH'
          ? '°fH'
          : check.inputs.unit === 'mmol/L'
            ? 'mmol/L'
            : 'gpg',
    ),
)
agree('hardness from Ca and Mg', 11, (check) => hardnessFrom(input(check, 'Ca_mgL'), input(check, 'Mg_mgL')))
agree('alkalinity from bicarbonate', 4, (check) => alkalinityFrom(input(check, 'HCO3_mgL')))
agree(
  'sodium percent of cations',
  4,
  (check) =>
    sodiumPercent({
      calciumMgL: input(check, 'Ca_mgL'),
      magnesiumMgL: input(check, 'Mg_mgL'),
      sodiumMgL: input(check, 'Na_mgL'),
      potassiumMgL: input(check, 'K_mgL'),
    }) ?? Number.NaN,
)
agree('ion balance', 13, (check) => {
  const answer = ionBalance({
    calciumMgL: input(check, 'Ca'),
    magnesiumMgL: input(check, 'Mg'),
    sodiumMgL: input(check, 'Na'),
    potassiumMgL: input(check, 'K'),
    alkalinityMgL: input(check, 'alkalinity_CaCO3'),
    chlorideMgL: input(check, 'Cl'),
    sulfateMgL: input(check, 'SO4'),
    nitrateNMgL: input(check, 'nitrateN'),
    fluorideMgL: input(check, 'F'),
  })
  return answer.kind === 'balance' ? answer.percent : Number.NaN
})
agree('SAR', 8, (check) => {
  if ('Na_meq' in check.inputs)
    return (
      sodiumAdsorption(
        input(check, 'Na_meq') * 22.98977,
        input(check, 'Ca_meq') * 20.039,
        input(check, 'Mg_meq') * 12.1525,
      ) ?? Number.NaN
    )
  // SAR-T4A: the source's table uses sodium 255 mg/L (its text says 144); the printed SAR belongs to the table.
  const sodium = typeof check.inputs.Na_mgL === 'number' ? check.inputs.Na_mgL : 255
  return sodiumAdsorption(sodium, input(check, 'Ca_mgL'), input(check, 'Mg_mgL')) ?? Number.NaN
})
const scale = (check: Check) => ({
  ph: input(check, 'pH'),
  tempC: input(check, 'T_C'),
  tdsMgL: input(check, 'TDS'),
  calciumHardnessMgL:
    'CaHardness' in check.inputs ? input(check, 'CaHardness') : hardnessFrom(input(check, 'Ca_mgL'), 0),
  alkalinityMgL: input(check, 'alk'),
})
const value = (answer: ReturnType<typeof langelier>): number =>
  answer.kind === 'index' ? answer.value : Number.NaN
agree('Langelier (A,B,C,D form)', 1, (check) => value(langelier(scale(check))))
agree('Langelier (thermodynamic, calcite)', 3, (check) => value(langelierThermodynamic(scale(check))))
agree('Ryznar', 3, (check) => value(ryznar(scale(check))))
agree(
  'Aggressiveness index',
  2,
  (check) =>
    aggressiveness(input(check, 'pH'), input(check, 'alk'), hardnessFrom(input(check, 'Ca_mgL'), 0)) ??
    Number.NaN,
)
agree('HOCl share of free chlorine at 25 C', 6, (check) => 100 * hypochlorousShare(input(check, 'pH')))

describe('the two Langelier forms differ on the same water, so each answer names its form', () => {
  test('pH 8, calcium 40 mg/L, alkalinity 200 mg/L: 0.39 against 0.75', () => {
    const water = {
      ph: 8,
      tempC: 25,
      tdsMgL: 173,
      calciumHardnessMgL: hardnessFrom(40, 0),
      alkalinityMgL: 200,
    }
    expect(value(langelier(water))).toBeCloseTo(0.39, 2)
    expect(value(langelierThermodynamic(water))).toBeCloseTo(0.75, 2)
    expect(langelier(water)).toMatchObject({ form: expect.stringContaining('A-B-C-D') })
    expect(langelierThermodynamic(water)).toMatchObject({ form: expect.stringContaining('calcite') })
  })
})

describe('measured dissolved solids against the sum', () => {
  test.each([
    [615, 588, true],
    [435, 436, false],
    [310, 427, false],
    [457, 450, true],
    [336, 408, false],
    [371, 382, false],
  ] as const)(
    'USGS well samples, 1030 E band from memory: %d against %d agrees %s',
    (measured, sum, agrees) => expect(solidsSumAgrees(measured, sum)?.agrees).toBe(agrees),
  )
})

const mpn = (sets: Parameters<typeof mostProbableNumber>[0]): number => mostProbableNumber(sets).per100mL
const tubes = (check: Check): number => {
  const list = (name: string): number[] => {
    const raw = check.inputs[name]
    return Array.isArray(raw) ? raw.map(Number) : [Number(raw)]
  }
  const [counts, volumes, positives] = [list('tubes'), list('vol_mL'), list('positive')]
  return mpn(
    counts.map((count, i) => ({ tubes: count, volumeML: volumes[i] ?? 0, positive: positives[i] ?? 0 })),
  )
}
agree('MPN 10 tubes of 10 mL', 6, tubes)
agree('MPN 5 tubes of 20 mL', 3, tubes)
agree('MPN 15 tubes 10/1/0.1 mL', 5, tubes)

describe('MPN of trays (tables carried by the R package quantitray)', () => {
  const [w51] = WELLS_51
  const [large, small] = WELLS_97
  test.each(
    checksOf('MPN 51 wells')
      .filter((check) => 'positive' in check.inputs)
      .map((check) => [check.id, check] as const),
  )('%s', (_, check) => {
    expect(
      Math.abs(
        mpn([{ volumeML: 100 / 51, tubes: 51, positive: input(check, 'positive') }]) - check.expected.value,
      ),
    ).toBeLessThanOrEqual(check.expected.tolerance)
    expect(w51).toEqual({ volumeML: 100 / 51, tubes: 51 })
  })
  test.each(
    checksOf('MPN 97 wells')
      .filter((check) => 'large' in check.inputs)
      .map((check) => [check.id, check] as const),
  )('%s', (_, check) => {
    if (!large || !small) throw new Error('two volumes')
    const got = mpn([
      { ...large, positive: input(check, 'large') },
      { ...small, positive: input(check, 'small') },
    ])
    expect(Math.abs(got - check.expected.value)).toBeLessThanOrEqual(Math.max(0.07, check.expected.tolerance))
  })
  test('none positive is "<1", all positive ">200.5" and ">2419.6"', () => {
    expect(mostProbableNumber([{ volumeML: 100 / 51, tubes: 51, positive: 0 }])).toMatchObject({
      kind: 'below',
      per100mL: expect.closeTo(1.0, 1),
    })
    expect(mostProbableNumber([{ volumeML: 100 / 51, tubes: 51, positive: 51 }])).toMatchObject({
      kind: 'above',
      per100mL: expect.closeTo(200.5, 1),
    })
    const full = mostProbableNumber([
      { volumeML: 1.9, tubes: 49, positive: 49 },
      { volumeML: 0.16, tubes: 48, positive: 48 },
    ])
    expect(full.kind).toBe('above')
    expect(full.per100mL).toBeCloseTo(2419.6, 0)
  })
  test('51 wells follow 51 ln(51/(51−x)) over the whole table', () => {
    for (let x = 1; x <= 50; x += 1)
      expect(mpn([{ volumeML: 100 / 51, tubes: 51, positive: x }])).toBeCloseTo(
        51 * Math.log(51 / (51 - x)),
        6,
      )
  })
})
