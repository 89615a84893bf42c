/** A sample's sheet held against itself: what can be checked from its numbers, with one sentence where it does not agree. */
import {
  type Agreement,
  alkalinityFrom,
  hardnessAgrees,
  hardnessFrom,
  type Ions,
  ionBalance,
  solidsAgree,
  solidsSumAgrees,
} from './consistency'
import { type IndexAnswer, langelier, langelierThermodynamic, ryznar, sodiumAdsorption } from './indices'
import type { Sample } from './types'

export type SheetCheck = {
  check: 'ion-balance' | 'hardness' | 'solids-conductance' | 'solids-sum'
  agrees: boolean
  value: number
  rule: string
  text: string
}

/** The checks a sheet has the numbers for. A failed one asks for a look at units and typing; no result is dropped for it. */
export function sheetChecks(sample: Sample): SheetCheck[] {
  const ions = ionsOf(sample)
  const checks: SheetCheck[] = []
  const balance = ionBalance(ions)
  if (balance.kind === 'balance')
    checks.push(
      say(
        'ion-balance',
        balance.agrees,
        balance.percent,
        balance.rule,
        `Positive and negative ions differ by ${balance.percent.toFixed(1)} %`,
      ),
    )
  add(
    checks,
    'hardness',
    withAll(
      (hardness, calcium, magnesium) => hardnessAgrees(hardness, calcium, magnesium),
      amount(sample, 'hardness'),
      ions.calciumMgL,
      ions.magnesiumMgL,
    ),
  )
  add(
    checks,
    'solids-conductance',
    withAll(
      (solids, conductance) => solidsAgree(solids, conductance),
      amount(sample, 'total-dissolved-solids'),
      amount(sample, 'specific-conductance'),
    ),
  )
  const sum = balance.kind === 'balance' ? sumOf(ions, amount(sample, 'silica')) : null
  add(
    checks,
    'solids-sum',
    withAll((solids, total) => solidsSumAgrees(solids, total), amount(sample, 'total-dissolved-solids'), sum),
  )
  return checks
}

const TEXTS: Readonly<Record<Exclude<SheetCheck['check'], 'ion-balance'>, string>> = {
  hardness: 'Hardness against calcium and magnesium',
  'solids-conductance': 'Dissolved solids against conductance',
  'solids-sum': 'Dissolved solids against the sum of what was measured',
}

function add(
  checks: SheetCheck[],
  check: Exclude<SheetCheck['check'], 'ion-balance'>,
  agreement: Agreement | null,
): void {
  if (agreement)
    checks.push(
      say(
        check,
        agreement.agrees,
        agreement.ratio,
        agreement.rule,
        `${TEXTS[check]}: ratio ${agreement.ratio.toFixed(2)}`,
      ),
    )
}

function say(
  check: SheetCheck['check'],
  agrees: boolean,
  value: number,
  rule: string,
  what: string,
): SheetCheck {
  return {
    check,
    agrees,
    value,
    rule,
    text: agrees
      ? `${what}: the sheet agrees with itself.`
      : `${what} (${rule}). Check the units and the typing.`,
  }
}

function withAll<T>(
  reckon: (...values: [number, number, number]) => T | null,
  ...values: (number | null)[]
): T | null {
  const known = values.filter((value) => value !== null)
  return known.length === values.length ? reckon(known[0] ?? 0, known[1] ?? 0, known[2] ?? 0) : null
}

/** The measured amount of an analyte in a sample, home unit: the first plain number without an open question. */
function amount(sample: Sample, id: string): number | null {
  const result = sample.results.find(
    (each) =>
      each.analyte === id &&
      each.operator === '=' &&
      each.leftOut === undefined &&
      each.questions.length === 0,
  )
  return result?.value ?? null
}

/** The ions of a sample, mg/L. Alkalinity from bicarbonate where only that was measured. */
export function ionsOf(sample: Sample): Ions {
  const bicarbonate = amount(sample, 'bicarbonate')
  return {
    calciumMgL: amount(sample, 'calcium'),
    magnesiumMgL: amount(sample, 'magnesium'),
    sodiumMgL: amount(sample, 'sodium'),
    potassiumMgL: amount(sample, 'potassium'),
    alkalinityMgL:
      amount(sample, 'alkalinity') ?? (bicarbonate === null ? null : alkalinityFrom(bicarbonate)),
    chlorideMgL: amount(sample, 'chloride'),
    sulfateMgL: amount(sample, 'sulfate'),
    nitrateNMgL: amount(sample, 'nitrate'),
    fluorideMgL: amount(sample, 'fluoride'),
  }
}

/** Sum of constituents as a laboratory reckons it: bicarbonate counts as carbonate (0.6 × alkalinity), as it does when dried. */
function sumOf(ions: Ions, silicaMgL: number | null): number {
  const { alkalinityMgL, nitrateNMgL, ...others } = ions
  const plain = Object.values(others).reduce<number>((total, value) => total + (value ?? 0), 0)
  return plain + 0.6 * (alkalinityMgL ?? 0) + 4.4268 * (nitrateNMgL ?? 0) + (silicaMgL ?? 0)
}

export type SheetIndices = {
  langelier: IndexAnswer | null
  langelierCalcite: IndexAnswer | null
  ryznar: IndexAnswer | null
  sodiumAdsorption: number | null
}

/** The indices a sheet has the numbers for. `tempC`: of the water in the well; null leaves out what needs it. */
export function sheetIndices(sample: Sample, tempC: number | null): SheetIndices {
  const ions = ionsOf(sample)
  const ph = amount(sample, 'ph')
  const tdsMgL = amount(sample, 'total-dissolved-solids')
  const { calciumMgL, magnesiumMgL, sodiumMgL, alkalinityMgL } = ions
  const ready =
    ph !== null && tempC !== null && tdsMgL !== null && calciumMgL !== null && alkalinityMgL !== null
  const input = ready
    ? { ph, tempC, tdsMgL, calciumHardnessMgL: hardnessFrom(calciumMgL, 0), alkalinityMgL }
    : null
  return {
    langelier: input && langelier(input),
    langelierCalcite: input && langelierThermodynamic(input),
    ryznar: input && ryznar(input),
    sodiumAdsorption:
      sodiumMgL === null || calciumMgL === null || magnesiumMgL === null
        ? null
        : sodiumAdsorption(sodiumMgL, calciumMgL, magnesiumMgL),
  }
}
