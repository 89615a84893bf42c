/**
 * Scale and corrosion indices, and the sodium adsorption ratio for irrigation. The two Langelier forms differ by about 0.4 on
 * the same water, so every answer names its form.
 */

const LG = Math.log10
const KELVIN = 273

/** What an index needs. Alkalinity and calcium hardness in mg/L as CaCO3, TDS mg/L, temperature °C. */
export type ScaleInput = {
  ph: number
  tempC: number
  tdsMgL: number
  calciumHardnessMgL: number
  alkalinityMgL: number
}

export type IndexAnswer =
  | { kind: 'index'; value: number; saturationPh: number; form: string }
  | { kind: 'out-of-range'; why: string }

/**
 * Langelier index, A-B-C-D form: pHs = 9.3 + A + B − C − D, A = (lg TDS − 1)/10, B = −13.12 lg(T + 273) + 34.55,
 * C = lg(Ca as CaCO3) − 0.4, D = lg(alkalinity as CaCO3). Positive: scale forms; negative: scale dissolves.
 */
export function langelier(input: ScaleInput): IndexAnswer {
  const wrong = outOfRange(input)
  if (wrong) return wrong
  const a = (LG(input.tdsMgL) - 1) / 10
  const b = -13.12 * LG(input.tempC + KELVIN) + 34.55
  const c = LG(input.calciumHardnessMgL) - 0.4
  const d = LG(input.alkalinityMgL)
  return indexOf(input.ph, 9.3 + a + b - c - d, 'Langelier, A-B-C-D form')
}

/**
 * Langelier index from calcite solubility: pHs = pK2 − pKso − lg Ca − lg alkalinity (mol/L and eq/L), constants by Plummer &
 * Busenberg (1982), from memory. The activity corrections of Ca²⁺ and CO₃²⁻ cancel and that of HCO₃⁻ is left out, as in the
 * R package tidywater, whose worked examples it reproduces; dissolved solids therefore play no part.
 */
export function langelierThermodynamic(input: ScaleInput): IndexAnswer {
  const wrong = outOfRange(input)
  if (wrong) return wrong
  const kelvin = input.tempC + 273.15
  const pk2 =
    107.8871 + 0.03252849 * kelvin - 5151.79 / kelvin - 38.92561 * LG(kelvin) + 563713.9 / kelvin ** 2
  const pkso = 171.9065 + 0.077993 * kelvin - 2839.319 / kelvin - 71.595 * LG(kelvin)
  const calcium = LG(input.calciumHardnessMgL / 100086.9)
  const alkalinity = LG(input.alkalinityMgL / 50043.5)
  return indexOf(input.ph, pk2 - pkso - calcium - alkalinity, 'Langelier, calcite solubility')
}

/** Ryznar stability index 2 pHs − pH, with the pHs of the calcite form. Above about 7: corrosive; below about 6: scale. */
export function ryznar(input: ScaleInput): IndexAnswer {
  const saturation = langelierThermodynamic(input)
  if (saturation.kind !== 'index') return saturation
  const { saturationPh } = saturation
  return {
    kind: 'index',
    value: 2 * saturationPh - input.ph,
    saturationPh,
    form: 'Ryznar, with pHs from calcite solubility',
  }
}

/** Aggressiveness index pH + lg(alkalinity × calcium hardness), both as CaCO3. Below 10 aggressive, above 12 not. */
export function aggressiveness(ph: number, alkalinityMgL: number, calciumHardnessMgL: number): number | null {
  return alkalinityMgL > 0 && calciumHardnessMgL > 0 ? ph + LG(alkalinityMgL * calciumHardnessMgL) : null
}

/** Sodium adsorption ratio Na/√((Ca + Mg)/2) with the ions in meq/L, from mg/L. Null where there is no calcium or magnesium. */
export function sodiumAdsorption(sodiumMgL: number, calciumMgL: number, magnesiumMgL: number): number | null {
  const divalent = calciumMgL / 20.039 + magnesiumMgL / 12.1525
  return divalent > 0 ? sodiumMgL / 22.98977 / Math.sqrt(divalent / 2) : null
}

function indexOf(ph: number, saturationPh: number, form: string): IndexAnswer {
  return { kind: 'index', value: ph - saturationPh, saturationPh, form }
}

function outOfRange(input: ScaleInput): IndexAnswer | null {
  const { ph, tempC, tdsMgL, calciumHardnessMgL, alkalinityMgL } = input
  if (!(tdsMgL > 0 && calciumHardnessMgL > 0 && alkalinityMgL > 0))
    return { kind: 'out-of-range', why: 'needs dissolved solids, calcium and alkalinity above zero' }
  if (!(ph > 2 && ph < 13)) return { kind: 'out-of-range', why: `pH ${ph} is not one a well has` }
  if (!(tempC >= 0 && tempC <= 90)) return { kind: 'out-of-range', why: `${tempC} °C is outside 0 to 90 °C` }
  return null
}
