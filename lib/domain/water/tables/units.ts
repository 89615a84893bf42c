/** Concentration units by the names on lab sheets (lower case, µ as u, ° as deg), with factors to a base of each measure. */
import type { Analyte } from '../types'

/** Molar mass of CaCO3, so mg of it in a millimole. */
export const MG_PER_MMOL_CACO3 = 100.086
const MG_PER_GRAIN = 64.79891
const US_GALLON_L = 3.785411784
const IMPERIAL_GALLON_L = 4.54609

/** `factor` × value = value in the base unit of `measure`. Bases: mg/L, per 100 mL, pCi/L, uS/cm, NTU, color units ... */
export type UnitRow = { measure: Analyte['measure'] | 'hardness'; factor: number; names: readonly string[] }

export const UNITS: readonly UnitRow[] = [
  { measure: 'mass', factor: 1000, names: ['g/l'] },
  {
    measure: 'mass',
    factor: 1,
    names: ['mg/l', 'ppm', 'mgl', 'mg/liter', 'mg/litre', 'milligrams per liter', 'g/m3', 'mg/dm3', 'ug/ml'],
  },
  {
    measure: 'mass',
    factor: 1e-3,
    names: [
      'ug/l',
      'ppb',
      'mcg/l',
      'ugl',
      'ug/liter',
      'ug/litre',
      'mg/m3',
      'micrograms per liter',
      'ng/ml',
      'ug/dm3',
    ],
  },
  { measure: 'mass', factor: 1e-6, names: ['ng/l', 'ppt', 'ngl', 'ng/liter', 'nanograms per liter'] },
  {
    measure: 'hardness',
    factor: MG_PER_GRAIN / US_GALLON_L,
    names: ['gpg', 'grains/gal', 'grains per gallon', 'gr/gal', 'grains/gallon', 'grains'],
  },
  {
    measure: 'hardness',
    factor: 10 * (MG_PER_MMOL_CACO3 / 56.077),
    names: ['dh', 'deg dh', 'german degrees', 'dgh'],
  },
  { measure: 'hardness', factor: 10, names: ['fh', 'deg fh', 'deg f', 'french degrees'] },
  {
    measure: 'hardness',
    factor: MG_PER_GRAIN / IMPERIAL_GALLON_L,
    names: ['clark', 'deg clark', 'deg e', 'english degrees'],
  },
  { measure: 'hardness', factor: MG_PER_MMOL_CACO3, names: ['mmol/l'] },
  { measure: 'hardness', factor: MG_PER_MMOL_CACO3 / 2, names: ['meq/l', 'mval/l'] },
  {
    measure: 'count',
    factor: 1,
    names: [
      '/100ml',
      'per 100ml',
      'cfu/100ml',
      'mpn/100ml',
      'col/100ml',
      'colonies/100ml',
      'cfu per 100ml',
      'mpn per 100ml',
      'org/100ml',
      '#/100ml',
      'no/100ml',
      'cfu',
      'mpn',
      'p/a',
      'presence/absence',
      'pa',
      'p/a/100ml',
      'colonies per 100ml',
      'kbe/100ml',
      'ufc/100ml',
      'present/absent',
      'absent/100ml',
    ],
  },
  {
    measure: 'count',
    factor: 100,
    names: ['/ml', 'per ml', 'cfu/ml', 'mpn/ml', 'col/ml', 'colonies/ml', 'cfu per ml'],
  },
  { measure: 'count', factor: 0.1, names: ['cfu/l', 'mpn/l', '/l'] },
  { measure: 'activity', factor: 1, names: ['pci/l'] },
  { measure: 'activity', factor: 1 / 0.037, names: ['bq/l'] },
  { measure: 'activity', factor: 0.001 / 0.037, names: ['mbq/l'] },
  { measure: 'activity', factor: 1000, names: ['nci/l'] },
  {
    measure: 'conductance',
    factor: 1,
    names: ['us/cm', 'umho/cm', 'umhos/cm', 'microsiemens/cm', 'us/cm @25c', 'us/cm at 25c', 'us/cm@25c'],
  },
  { measure: 'conductance', factor: 1000, names: ['ms/cm', 'ds/m', 'mmho/cm', 'mmhos/cm'] },
  { measure: 'conductance', factor: 10, names: ['ms/m'] },
  { measure: 'turbidity', factor: 1, names: ['ntu', 'fnu', 'ftu', 'ntru'] },
  {
    measure: 'colour',
    factor: 1,
    names: [
      'color units',
      'colour units',
      'cu',
      'pcu',
      'pt-co',
      'ptco',
      'pt-co units',
      'mg/l pt',
      'hazen',
      'apcu',
      'acu',
      'tcu',
      'hu',
      'pcu units',
    ],
  },
  { measure: 'odour', factor: 1, names: ['ton', 't.o.n.', 'threshold odor number'] },
  {
    measure: 'ph',
    factor: 1,
    names: [
      'std units',
      'su',
      's.u.',
      'ph units',
      'standard units',
      'units',
      'ph',
      'unit',
      'std. units',
      'std unit',
    ],
  },
  { measure: 'ratio', factor: 1, names: ['unitless', '-', 'none', 'ratio'] },
]
