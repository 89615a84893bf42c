/**
 * Metals, ions and nitrogen: names on lab sheets, CAS numbers, WQX names, usual ranges in mg/L.
 * CAS numbers and WQX names were read in the EPA WQX domain list unless marked; usual ranges are house figures for
 * well water (no published source; their low ends let the trace values of the agency data in our tests pass) and serve only
 * to ask "did you mean µg/L?".
 */
import type { Analyte, Form } from '../types'

/** IUPAC standard atomic weights (2013 and later abridged values), g/mol. */
const N = 14.007
const O = 15.999
const H = 1.008
const NO3 = N + 3 * O
const NO2 = N + 2 * O
const CACO3 = 100.086

const element = (
  name: string,
  symbol: string,
  cas: string,
  usual: readonly [number, number],
  synonyms: readonly string[] = [],
): Analyte => ({
  id: name.toLowerCase(),
  name,
  family: 'metal',
  home: 'mg/L',
  measure: 'mass',
  usual,
  cas,
  wqx: name,
  synonyms: [symbol, `${name} (${symbol})`, `${name}, ${symbol}`, ...synonyms],
})

const ion = (
  name: string,
  cas: string,
  usual: readonly [number, number],
  synonyms: readonly string[],
  forms?: readonly Form[],
): Analyte => ({ ...element(name, synonyms[0] ?? name, cas, usual, synonyms.slice(1)), family: 'ion', forms })

export const METALS: readonly Analyte[] = [
  element('Aluminum', 'Al', '7429-90-5', [0.005, 5], ['Aluminium']),
  element('Antimony', 'Sb', '7440-36-0', [0.0001, 0.05]),
  element('Arsenic', 'As', '7440-38-2', [0.0001, 0.5], ['Arsenic, total']),
  element('Barium', 'Ba', '7440-39-3', [0.001, 5]),
  element('Beryllium', 'Be', '7440-41-7', [0.00001, 0.05]),
  element('Boron', 'B', '7440-42-8', [0.005, 10]),
  element('Cadmium', 'Cd', '7440-43-9', [0.00002, 0.05]),
  {
    ...element(
      'Chromium',
      'Cr',
      '7440-47-3',
      [0.0001, 0.5],
      ['Chromium, total', 'Total chromium', 'Chromium total'],
    ),
  },
  {
    ...element(
      'Chromium(VI)',
      'Cr6+',
      '18540-29-9',
      [0.00002, 0.1],
      ['Hexavalent chromium', 'Chromium, hexavalent', 'Cr(VI)'],
    ),
    id: 'chromium-vi',
    casSeen: 'memory',
  },
  element('Copper', 'Cu', '7440-50-8', [0.0005, 5]),
  element('Iron', 'Fe', '7439-89-6', [0.005, 50], ['Iron, total', 'Total iron']),
  element('Lead', 'Pb', '7439-92-1', [0.00002, 0.5], ['Lead, first draw', 'Lead, flushed', 'Lead, total']),
  element('Manganese', 'Mn', '7439-96-5', [0.0002, 10], ['Manganese, total', 'Total manganese']),
  element('Mercury', 'Hg', '7439-97-6', [0.00001, 0.02]),
  element('Nickel', 'Ni', '7440-02-0', [0.0002, 0.5]),
  element('Selenium', 'Se', '7782-49-2', [0.00002, 0.2]),
  element('Silver', 'Ag', '7440-22-4', [0.0001, 0.5]),
  element('Thallium', 'Tl', '7440-28-0', [0.00002, 0.02]),
  { ...element('Uranium', 'U', '7440-61-1', [0.00005, 0.5]) },
  element('Zinc', 'Zn', '7440-66-6', [0.002, 20]),
]

const ALKALINITY_FORMS: readonly Form[] = [
  { form: 'CaCO3', factor: 1, marks: ['caco3'] },
  { form: 'HCO3', factor: 50.043 / 61.017, marks: ['hco3', 'bicarbonate'] },
]

export const IONS: readonly Analyte[] = [
  ion(
    'Calcium',
    '7440-70-2',
    [0.5, 1000],
    ['Ca'],
    [
      { form: 'Ca', factor: 1, marks: ['ca'] },
      { form: 'CaCO3', factor: 40.078 / CACO3, marks: ['caco3'] },
    ],
  ),
  ion(
    'Magnesium',
    '7439-95-4',
    [0.1, 500],
    ['Mg'],
    [
      { form: 'Mg', factor: 1, marks: ['mg'] },
      { form: 'CaCO3', factor: 24.305 / CACO3, marks: ['caco3'] },
    ],
  ),
  ion('Sodium', '7440-23-5', [0.5, 2000], ['Na']),
  ion('Potassium', '7440-09-7', [0.1, 200], ['K']),
  ion('Chloride', '16887-00-6', [0.5, 5000], ['Cl', 'Cl-']),
  ion('Fluoride', '16984-48-8', [0.01, 15], ['F', 'F-']),
  ion(
    'Sulfate',
    '14808-79-8',
    [0.5, 3000],
    ['SO4', 'Sulphate', 'SO4 2-', 'SO4--'],
    [
      { form: 'SO4', factor: 1, marks: ['so4'] },
      { form: 'S', factor: 96.056 / 32.06, marks: ['s'] },
    ],
  ),
  { ...ion('Perchlorate', '14797-73-0', [0.00005, 0.1], ['ClO4', 'ClO4-']), casSeen: 'memory' },
  {
    ...ion('Bicarbonate', '71-52-3', [5, 1000], ['HCO3', 'HCO3-']),
    casSeen: 'memory',
  },
  {
    ...ion('Silica', '7631-86-9', [1, 150], ['SiO2', 'Silica, reactive', 'Silicon dioxide']),
    casSeen: 'memory',
  },
  {
    ...ion('Hydrogen sulfide', '7783-06-4', [0.01, 20], ['H2S', 'Hydrogen sulphide', 'Sulfide (H2S)']),
    id: 'hydrogen-sulfide',
    casSeen: 'memory',
  },
  {
    ...ion('Cyanide', '57-12-5', [0.001, 1], ['CN', 'Cyanide, free', 'Free cyanide']),
    casSeen: 'memory',
  },
  {
    ...ion(
      'Alkalinity',
      '',
      [5, 1000],
      ['Alk', 'Total alkalinity', 'Alkalinity, total', 'Alkalinity as CaCO3', 'Alkalinity, total (as CaCO3)'],
      ALKALINITY_FORMS,
    ),
    home: 'mg/L as CaCO3',
    cas: null,
    family: 'general',
  },
]

export const NITROGEN: readonly Analyte[] = [
  {
    id: 'nitrate',
    name: 'Nitrate',
    family: 'nitrogen',
    home: 'mg/L as N',
    measure: 'mass',
    usual: [0.01, 150],
    cas: '14797-55-8',
    wqx: 'Nitrate',
    synonyms: ['NO3', 'Nitrate nitrogen', 'Nitrogen, nitrate', 'Nitrate (as nitrogen)'],
    forms: [
      { form: 'N', factor: 1, marks: ['n', 'nitrogen'] },
      { form: 'NO3', factor: N / NO3, marks: ['no3', 'nitrate'] },
    ],
  },
  {
    id: 'nitrite',
    name: 'Nitrite',
    family: 'nitrogen',
    home: 'mg/L as N',
    measure: 'mass',
    usual: [0.001, 10],
    cas: '14797-65-0',
    wqx: 'Nitrite',
    synonyms: ['NO2', 'Nitrite nitrogen', 'Nitrogen, nitrite', 'Nitrite (as nitrogen)'],
    forms: [
      { form: 'N', factor: 1, marks: ['n', 'nitrogen'] },
      { form: 'NO2', factor: N / NO2, marks: ['no2', 'nitrite'] },
    ],
  },
  {
    id: 'nitrate-nitrite',
    name: 'Nitrate + nitrite',
    family: 'nitrogen',
    home: 'mg/L as N',
    measure: 'mass',
    usual: [0.01, 150],
    cas: null,
    wqx: 'Nitrate + Nitrite',
    synonyms: [
      'NO3+NO2',
      'NO2+NO3',
      'Nitrate/Nitrite',
      'Nitrate and nitrite',
      'Nitrate-nitrite',
      'Nitrate-nitrite nitrogen',
      'Nitrogen, nitrate + nitrite',
      'Total nitrate and nitrite',
      'Inorganic nitrogen (nitrate and nitrite)',
    ],
    forms: [{ form: 'N', factor: 1, marks: ['n', 'nitrogen'] }],
  },
  {
    id: 'ammonia',
    name: 'Ammonia / ammonium',
    family: 'nitrogen',
    home: 'mg/L as N',
    measure: 'mass',
    usual: [0.01, 50],
    cas: '7664-41-7',
    casSeen: 'memory',
    wqx: 'Ammonia and ammonium',
    synonyms: [
      'Ammonia',
      'Ammonium',
      'NH3',
      'NH4',
      'Ammonia nitrogen',
      'Nitrogen, ammonia',
      'NH4+',
      'Ammonia and ammonium',
    ],
    forms: [
      { form: 'N', factor: 1, marks: ['n', 'nitrogen'] },
      { form: 'NH4', factor: N / (N + 4 * H), marks: ['nh4', 'ammonium'] },
      { form: 'NH3', factor: N / (N + 3 * H), marks: ['nh3'] },
    ],
  },
]
