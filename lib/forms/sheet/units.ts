import { ANALYTES } from '@/lib/domain/water/analytes'
import type { Analyte } from '@/lib/domain/water/types'

const BY_MEASURE: Readonly<Record<Analyte['measure'], readonly string[]>> = {
  mass: ['mg/L', 'µg/L', 'ng/L'],
  count: ['per 100 mL', 'MPN/100 mL', 'CFU/100 mL', 'P/A'],
  activity: ['pCi/L', 'Bq/L'],
  conductance: ['µS/cm', 'mS/cm'],
  turbidity: ['NTU'],
  colour: ['color units'],
  odour: ['TON'],
  ph: ['std units'],
  ratio: ['unitless'],
}

/** The units in which laboratories give an analyte, usual ones first; each can be read back (lib/domain/water/units.ts). */
export function unitsFor(analyte: Analyte): readonly string[] {
  if (analyte.id === 'hardness') return ['mg/L as CaCO3', 'gpg', '°dH']
  if (analyte.id === 'alkalinity') return ['mg/L as CaCO3', 'mg/L as HCO3']
  if (analyte.home === 'per mL') return ['CFU/mL']
  if (analyte.forms && analyte.forms.length > 1)
    return [...analyte.forms.map(({ form }) => `mg/L as ${form}`), 'µg/L']
  return BY_MEASURE[analyte.measure]
}

export type UnitLists = {
  /** The different lists of units, each under the id of its datalist. */
  lists: readonly { id: string; units: readonly string[] }[]
  /** Analyte name in lower case to the id of its list. */
  of: Readonly<Record<string, string>>
}

/** Every list of units once, and which of them belongs to which name. */
export function unitLists(): UnitLists {
  const ids = new Map<string, { id: string; units: readonly string[] }>()
  const of: Record<string, string> = {}
  for (const analyte of ANALYTES) {
    const units = unitsFor(analyte)
    const key = units.join('|')
    const list = ids.get(key) ?? { id: `units-${ids.size + 1}`, units }
    ids.set(key, list)
    of[analyte.name.toLowerCase()] = list.id
  }
  return { lists: [...ids.values()], of }
}
