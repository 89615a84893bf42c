/**
 * Most probable number from tubes or wells by maximum likelihood: Σ p·v / (1 − exp(−λv)) = Σ n·v, λ per mL.
 *
 * Source  the likelihood behind the published MPN tables (Standard Methods 9221 C); checked against tables for 51 and 97
 *         wells and for 10 × 10 mL and 5 × 20 mL tubes. Trays of 97 wells reproduce with 49 × 1.9 mL and 48 × 0.16 mL, not with
 *         the nominal 1.86 and 0.186 mL.
 */

/** Tubes or wells of one volume: how many, how many positive. */
export type MpnSet = { volumeML: number; tubes: number; positive: number }

/** Per 100 mL. 'below' and 'above' carry the bound a lab prints: the MPN of one positive, of all but one. */
export type MpnAnswer =
  | { kind: 'value'; per100mL: number }
  | { kind: 'below'; per100mL: number }
  | { kind: 'above'; per100mL: number }

/** 51 wells sharing 100 mL. */
export const WELLS_51: readonly Omit<MpnSet, 'positive'>[] = [{ volumeML: 100 / 51, tubes: 51 }]
/** 49 large and 48 small wells. */
export const WELLS_97: readonly Omit<MpnSet, 'positive'>[] = [
  { volumeML: 1.9, tubes: 49 },
  { volumeML: 0.16, tubes: 48 },
]

/**
 * The most probable number. No positive: '<' with the MPN of one positive tube of the largest volume. All positive: '>' with
 * the MPN of one negative tube of the smallest volume.
 * Throws  RangeError on an empty set, a volume that is not positive, or more positives than tubes.
 */
export function mostProbableNumber(sets: readonly MpnSet[]): MpnAnswer {
  check(sets)
  const positive = sets.reduce((sum, set) => sum + set.positive, 0)
  const tubes = sets.reduce((sum, set) => sum + set.tubes, 0)
  if (positive === 0) return { kind: 'below', per100mL: solve(withOne(sets)) }
  if (positive === tubes) return { kind: 'above', per100mL: solve(withoutOne(sets)) }
  return { kind: 'value', per100mL: solve(sets) }
}

function check(sets: readonly MpnSet[]): void {
  if (sets.length === 0) throw new RangeError('no tubes')
  for (const { volumeML, tubes, positive } of sets)
    if (
      !(volumeML > 0) ||
      !Number.isInteger(tubes) ||
      !Number.isInteger(positive) ||
      tubes < 1 ||
      positive < 0 ||
      positive > tubes
    )
      throw new RangeError(`${positive} positive of ${tubes} tubes of ${volumeML} mL is no MPN set`)
}

function withOne(sets: readonly MpnSet[]): MpnSet[] {
  const largest = Math.max(...sets.map((set) => set.volumeML))
  return sets.map((set) => ({ ...set, positive: set.volumeML === largest ? 1 : 0 }))
}

function withoutOne(sets: readonly MpnSet[]): MpnSet[] {
  const smallest = Math.min(...sets.map((set) => set.volumeML))
  return sets.map((set) => ({ ...set, positive: set.volumeML === smallest ? set.tubes - 1 : set.tubes }))
}

/** The root by bisection on the logarithm of λ: the left side falls from infinity to Σ p·v as λ grows. */
function solve(sets: readonly MpnSet[]): number {
  const total = sets.reduce((sum, set) => sum + set.tubes * set.volumeML, 0)
  const excess = (lambda: number): number =>
    sets.reduce(
      (sum, set) =>
        sum + (set.positive === 0 ? 0 : (set.positive * set.volumeML) / -Math.expm1(-lambda * set.volumeML)),
      0,
    ) - total
  let [low, high] = [1e-8, 1e6]
  for (let step = 0; step < 200; step += 1) {
    const middle = Math.sqrt(low * high)
    if (excess(middle) > 0) low = middle
    else high = middle
  }
  return 100 * Math.sqrt(low * high)
}
