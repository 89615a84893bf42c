/**
 * How much chlorine for a well: the water in the casing, the gravel pores, the drop pipe, the lines and the tank; the product;
 * the target. Volumes in m³, lengths in m, chlorine in g and mg/L, product in mL or g.
 *
 * Source  grams of available chlorine = target mg/L × litres / 1000; liquid mL = grams × 1000 / (trade per cent × 10). Trade
 *         per cent is grams of available chlorine in 100 mL, as in 327 IAC 8-3.4-24; all tables read use 52.5 g/L for 5.25 %.
 */
import { CAUTIONS, CONTACT, DUG_WELL_DOUBTS, PH_RANGE } from './tables/disinfection'

/** The water to be treated. Null: not known (asked for); 0: there is none. */
export type WaterToTreat = {
  casingBoreM: number
  /** Outside diameter of the casing, for the ring of gravel; null where there is no gravel pack. */
  casingOutsideM: number | null
  /** From the standing water level to the bottom. */
  waterColumnM: number
  /** Plan area of the pit, and the pores of its gravel (0 to 1); null where there is no gravel pack. */
  pitAreaM2: number | null
  gravelPorosity: number | null
  dropPipeBoreM: number
  dropPipeLengthM: number
  linesM3: number
  tankM3: number
}

export type Product =
  | { kind: 'liquid'; tradePercent: number }
  /** A label in per cent by weight, with the density of the product (1.08 for 5.25 %, from memory). */
  | { kind: 'liquid-by-weight'; weightPercent: number; densityKgPerL: number }
  | { kind: 'solid'; availablePercent: number }

export type Volumes = {
  casingM3: number
  gravelM3: number
  dropPipeM3: number
  linesM3: number
  tankM3: number
  totalM3: number
}

export type DoseAnswer =
  | {
      kind: 'dose'
      volumes: Volumes
      availableChlorineG: number
      /** Liquid products in mL, solid ones in g. */
      product: { amount: number; unit: 'mL' | 'g' }
      /** The same, part by part, so that the tank and the lines get theirs. */
      byPart: { part: keyof Omit<Volumes, 'totalM3'>; amount: number }[]
      contactHours: number
      hypochlorousShare: number | null
      warnings: readonly string[]
      cautions: readonly string[]
      doubts: readonly string[]
    }
  | { kind: 'cannot-say'; need: readonly string[] }

export type DoseOptions = { targetMgL: number; ph: number | null; contactHours?: number }

/**
 * Wells as wide as this are the ones the published doubts are about, whether the width is bore or a pit filled with gravel.
 * House reading of "large diameter"; no published figure.
 */
const LARGE_BORE_M = 0.6

/** The volumes of water in a well and its pipes, m³. */
export function waterVolumes(water: WaterToTreat): Volumes {
  const casingM3 = circle(water.casingBoreM) * water.waterColumnM
  const ring =
    water.pitAreaM2 === null ? 0 : water.pitAreaM2 - circle(water.casingOutsideM ?? water.casingBoreM)
  const gravelM3 = Math.max(0, ring) * (water.gravelPorosity ?? 0) * water.waterColumnM
  const dropPipeM3 = circle(water.dropPipeBoreM) * water.dropPipeLengthM
  const parts = { casingM3, gravelM3, dropPipeM3, linesM3: water.linesM3, tankM3: water.tankM3 }
  return { ...parts, totalM3: casingM3 + gravelM3 + dropPipeM3 + water.linesM3 + water.tankM3 }
}

/** The dose. 'cannot-say' names what is missing or impossible; a gravel pack without its porosity is missing, never zero. */
export function chlorineDose(water: WaterToTreat, product: Product, options: DoseOptions): DoseAnswer {
  const need = missing(water, product, options)
  if (need.length > 0) return { kind: 'cannot-say', need }
  const volumes = waterVolumes(water)
  const availableChlorineG = options.targetMgL * volumes.totalM3
  const perGram = productPerGram(product)
  const { totalM3: _, ...parts } = volumes
  const names = ['casingM3', 'gravelM3', 'dropPipeM3', 'linesM3', 'tankM3'] as const
  return {
    kind: 'dose',
    volumes,
    availableChlorineG,
    product: { amount: availableChlorineG * perGram, unit: product.kind === 'solid' ? 'g' : 'mL' },
    byPart: names
      .map((part) => ({ part, amount: options.targetMgL * parts[part] * perGram }))
      .filter((each) => each.amount > 0),
    contactHours: options.contactHours ?? standardContactHours(),
    hypochlorousShare: options.ph === null ? null : hypochlorousShare(options.ph),
    warnings: warningsOf(options),
    cautions: CAUTIONS.map((caution) => caution.text),
    doubts:
      water.casingBoreM >= LARGE_BORE_M || (water.pitAreaM2 ?? 0) >= circle(LARGE_BORE_M)
        ? DUG_WELL_DOUBTS.map((doubt) => `${doubt.text} (${doubt.source})`)
        : [],
  }
}

/** The strength a given amount of product makes, mg/L: the dose formula turned round, to check what was really put in. */
export function strengthMade(product: Product, amount: number, waterM3: number): number | null {
  return waterM3 > 0 && amount >= 0 ? amount / productPerGram(product) / waterM3 : null
}

/** Trade per cent (g of available chlorine in 100 mL) of a product labelled in per cent by weight of sodium hypochlorite. */
export function tradePercent(weightPercent: number, densityKgPerL: number): number {
  return weightPercent * densityKgPerL * CHLORINE_PER_HYPOCHLORITE
}

/** Mass of Cl2 per mass of NaOCl: 70.906 / 74.442. */
const CHLORINE_PER_HYPOCHLORITE = 0.9525

/** mL (liquid) or g (solid) of product for one gram of available chlorine. */
function productPerGram(product: Product): number {
  if (product.kind === 'solid') return 100 / product.availablePercent
  const percent =
    product.kind === 'liquid'
      ? product.tradePercent
      : tradePercent(product.weightPercent, product.densityKgPerL)
  return 100 / percent
}

/**
 * Share of free chlorine that is hypochlorous acid, 0 to 1, at 25 °C (pKa 7.53). It does the work; colder water holds a
 * little more of it.
 */
export function hypochlorousShare(ph: number): number {
  return 1 / (1 + 2.951209e-8 / 10 ** -ph)
}

/** The longest contact time of the guides read: 12 hours. */
function standardContactHours(): number {
  return Math.max(...CONTACT.map((row) => row.hours))
}

function circle(diameterM: number): number {
  return (Math.PI / 4) * diameterM ** 2
}

function missing(water: WaterToTreat, product: Product, options: DoseOptions): string[] {
  const need: string[] = []
  if (!(water.casingBoreM > 0)) need.push('the bore of the casing')
  if (!(water.waterColumnM > 0)) need.push('the depth of water in the well')
  if (
    water.pitAreaM2 !== null &&
    !(water.gravelPorosity !== null && water.gravelPorosity > 0 && water.gravelPorosity < 1)
  )
    need.push('the porosity of the gravel (for washed gravel 0.3 to 0.4)')
  if (water.pitAreaM2 !== null && water.pitAreaM2 < circle(water.casingOutsideM ?? water.casingBoreM))
    need.push('a pit area larger than the casing')
  const others = [water.dropPipeBoreM, water.dropPipeLengthM, water.linesM3, water.tankM3]
  if (!others.every((value) => value >= 0)) need.push('volumes of pipes and tank, zero where there is none')
  if (!(options.targetMgL > 0 && options.targetMgL <= 1000)) need.push('a target between 0 and 1000 mg/L')
  const strength =
    product.kind === 'liquid'
      ? product.tradePercent
      : product.kind === 'solid'
        ? product.availablePercent
        : product.weightPercent
  const most = product.kind === 'solid' ? 90 : 20
  if (!(strength > 0 && strength <= most))
    need.push(`the strength on the label, above 0 and at most ${most} %`)
  if (product.kind === 'liquid-by-weight' && !(product.densityKgPerL >= 1 && product.densityKgPerL < 1.4))
    need.push('the density of the product, 1 to 1.4 kg/L')
  return need
}

function warningsOf(options: DoseOptions): string[] {
  const warnings: string[] = []
  if (options.targetMgL > 200)
    warnings.push('Above 200 mg/L chlorine raises the pH and works less well (Ontario: 50 to 200 mg/L).')
  if (options.targetMgL < 50) warnings.push('Below 50 mg/L no guide read here calls it shock chlorination.')
  if (options.ph === null)
    warnings.push(
      `Measure the pH of the treated water: chlorine works best from ${PH_RANGE.low} to ${PH_RANGE.high}.`,
    )
  else if (options.ph > PH_RANGE.high)
    warnings.push(
      `At pH ${options.ph} only ${Math.round(100 * hypochlorousShare(options.ph))} % of the chlorine is the kind that kills; ${PH_RANGE.low} to ${PH_RANGE.high} is best.`,
    )
  else if (options.ph < PH_RANGE.low)
    warnings.push(`Below pH ${PH_RANGE.low} chlorine gives off gas: keep out of the fumes.`)
  return warnings
}
