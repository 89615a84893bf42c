/**
 * Does a sheet agree with itself? Charges balance, hardness agrees with calcium and magnesium, dissolved solids with
 * conductance. A failed check asks for a look at the units; it never drops a result.
 *
 * Source  ion balance 100·(cations − anions)/(cations + anions); limits ±0.2 meq/L up to 3 meq/L, ±2 % up to 10, ±5 % above
 *         (Standard Methods 1030 E, from memory). Good agency samples fail them often: five of thirteen in our tests.
 *         Hardness 2.497 Ca + 4.118 Mg (Standard Methods 2340 B). TDS/conductance 0.55 to 0.75 (Standard Methods 1030 E
 *         says 0.55 to 0.7, from memory; 0.75 keeps hard sulfate waters out of it).
 */

/** mg/L, as measured; null where not measured. Alkalinity as CaCO3, nitrate as N. */
export type Ions = {
  calciumMgL: number | null
  magnesiumMgL: number | null
  sodiumMgL: number | null
  potassiumMgL: number | null
  alkalinityMgL: number | null
  chlorideMgL: number | null
  sulfateMgL: number | null
  nitrateNMgL: number | null
  fluorideMgL: number | null
}

/** Equivalent weights, mg per meq. */
const MG_PER_MEQ = {
  calciumMgL: 20.039,
  magnesiumMgL: 12.1525,
  sodiumMgL: 22.98977,
  potassiumMgL: 39.0983,
  alkalinityMgL: 50.0435,
  chlorideMgL: 35.453,
  sulfateMgL: 48.031,
  nitrateNMgL: 14.0067,
  fluorideMgL: 18.9984,
} as const satisfies Record<keyof Ions, number>

const CATIONS = ['calciumMgL', 'magnesiumMgL', 'sodiumMgL', 'potassiumMgL'] as const
const ANIONS = ['alkalinityMgL', 'chlorideMgL', 'sulfateMgL', 'nitrateNMgL', 'fluorideMgL'] as const
const NEEDED = [
  'calciumMgL',
  'magnesiumMgL',
  'sodiumMgL',
  'alkalinityMgL',
  'chlorideMgL',
  'sulfateMgL',
] as const

export type BalanceAnswer =
  | {
      kind: 'balance'
      cationsMeqL: number
      anionsMeqL: number
      percent: number
      agrees: boolean
      rule: string
    }
  | { kind: 'too-few'; missing: readonly (keyof Ions)[] }

/** The ion balance. Potassium, nitrate and fluoride may be missing (small in most wells); the other six may not. */
export function ionBalance(ions: Ions): BalanceAnswer {
  const missing = NEEDED.filter((name) => ions[name] === null)
  if (missing.length > 0) return { kind: 'too-few', missing }
  const sum = (names: readonly (keyof Ions)[]): number =>
    names.reduce((total, name) => total + (ions[name] ?? 0) / MG_PER_MEQ[name], 0)
  const cationsMeqL = sum(CATIONS)
  const anionsMeqL = sum(ANIONS)
  if (cationsMeqL + anionsMeqL === 0) return { kind: 'too-few', missing: [...NEEDED] }
  const percent = (100 * (cationsMeqL - anionsMeqL)) / (cationsMeqL + anionsMeqL)
  return {
    kind: 'balance',
    cationsMeqL,
    anionsMeqL,
    percent,
    ...balanceRule(anionsMeqL, cationsMeqL - anionsMeqL, percent),
  }
}

function balanceRule(
  anionsMeqL: number,
  gapMeqL: number,
  percent: number,
): { agrees: boolean; rule: string } {
  if (anionsMeqL <= 3) return { agrees: Math.abs(gapMeqL) <= 0.2, rule: '±0.2 meq/L up to 3 meq/L' }
  if (anionsMeqL <= 10) return { agrees: Math.abs(percent) <= 2, rule: '±2 % from 3 to 10 meq/L' }
  return { agrees: Math.abs(percent) <= 5, rule: '±5 % above 10 meq/L' }
}

/** Hardness, mg/L as CaCO3, from calcium and magnesium in mg/L. */
export function hardnessFrom(calciumMgL: number, magnesiumMgL: number): number {
  return 2.497 * calciumMgL + 4.118 * magnesiumMgL
}

/** Alkalinity, mg/L as CaCO3, from bicarbonate in mg/L. */
export function alkalinityFrom(bicarbonateMgL: number): number {
  return (bicarbonateMgL * 50.0435) / 61.0168
}

/** Sodium as per cent of the cations, by charge. */
export function sodiumPercent(
  ions: Pick<Ions, 'calciumMgL' | 'magnesiumMgL' | 'sodiumMgL' | 'potassiumMgL'>,
): number | null {
  const { calciumMgL, magnesiumMgL, sodiumMgL, potassiumMgL } = ions
  if (calciumMgL === null || magnesiumMgL === null || sodiumMgL === null) return null
  const sodium = sodiumMgL / MG_PER_MEQ.sodiumMgL
  const others =
    calciumMgL / MG_PER_MEQ.calciumMgL +
    magnesiumMgL / MG_PER_MEQ.magnesiumMgL +
    (potassiumMgL ?? 0) / MG_PER_MEQ.potassiumMgL
  return sodium + others === 0 ? null : (100 * sodium) / (sodium + others)
}

/** Whether two numbers for one thing agree: measured against reckoned, as a ratio inside a band. */
export type Agreement = { ratio: number; agrees: boolean; rule: string }

/** Hardness on the sheet against calcium and magnesium: within 10 % (house rule, no published source), or 5 mg/L where soft. */
export function hardnessAgrees(
  hardnessMgL: number,
  calciumMgL: number,
  magnesiumMgL: number,
): Agreement | null {
  const reckoned = hardnessFrom(calciumMgL, magnesiumMgL)
  if (!(reckoned > 0)) return null
  const ratio = hardnessMgL / reckoned
  return {
    ratio,
    agrees: Math.abs(ratio - 1) <= 0.1 || Math.abs(hardnessMgL - reckoned) <= 5,
    rule: 'within 10 % or 5 mg/L of 2.497 Ca + 4.118 Mg',
  }
}

/** Dissolved solids (mg/L) against conductance (µS/cm at 25 °C). */
export function solidsAgree(tdsMgL: number, conductanceUSPerCm: number): Agreement | null {
  if (!(conductanceUSPerCm > 0)) return null
  const ratio = tdsMgL / conductanceUSPerCm
  return { ratio, agrees: ratio >= 0.55 && ratio <= 0.75, rule: '0.55 to 0.75 mg/L per µS/cm' }
}

/** Dissolved solids measured against the sum of what was measured: 1.0 to 1.2 (Standard Methods 1030 E, from memory). */
export function solidsSumAgrees(tdsMgL: number, sumMgL: number): Agreement | null {
  if (!(sumMgL > 0)) return null
  const ratio = tdsMgL / sumMgL
  return { ratio, agrees: ratio >= 1 && ratio <= 1.2, rule: '1.0 to 1.2 of the sum of constituents' }
}
