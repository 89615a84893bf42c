/** Bacteria, general characteristics, sums and radioactivity: names on lab sheets, WQX names, usual ranges (house figures). */
import type { Analyte } from '../types'

const bacteria = (id: string, name: string, wqx: string | null, synonyms: readonly string[]): Analyte => ({
  id,
  name,
  family: 'bacteria',
  home: 'per 100 mL',
  measure: 'count',
  usual: null,
  cas: null,
  wqx,
  synonyms,
})

export const BACTERIA: readonly Analyte[] = [
  bacteria('total-coliform', 'Total coliform', 'Total Coliform', [
    'Total coliforms',
    'Coliform bacteria',
    'Total coliform bacteria',
    'Coliform, total',
    'Coliforms, total',
    'TC',
    'T. coliform',
    'Tot. coliform',
  ]),
  bacteria('e-coli', 'E. coli', 'Escherichia coli', [
    'Escherichia coli',
    'E.coli',
    'E coli',
    'EC (E. coli)',
    'E. coli bacteria',
  ]),
  bacteria('fecal-coliform', 'Fecal coliform', 'Fecal Coliform', [
    'Faecal coliform',
    'Fecal coliforms',
    'Faecal coliforms',
    'Thermotolerant coliforms',
    'Coliform, fecal',
    'FC',
  ]),
  bacteria('enterococci', 'Enterococci', 'Enterococcus', [
    'Enterococcus',
    'Intestinal enterococci',
    'Fecal enterococci',
  ]),
  {
    ...bacteria('heterotrophic-plate-count', 'Heterotrophic plate count', 'Heterotrophic bacteria', [
      'HPC',
      'Standard plate count',
      'SPC',
      'Heterotrophic bacteria',
      'Colony count 22 C',
    ]),
    home: 'per mL',
  },
  bacteria('iron-bacteria', 'Iron bacteria', null, [
    'Iron related bacteria',
    'Iron-related bacteria',
    'Iron reducing bacteria',
    'IRB',
  ]),
  bacteria('sulfate-reducing-bacteria', 'Sulfate-reducing bacteria', null, [
    'Sulfate reducing bacteria',
    'Sulphate reducing bacteria',
    'Sulfur bacteria',
    'SRB',
  ]),
]

type Given = Pick<Analyte, 'id' | 'name' | 'home' | 'measure' | 'usual' | 'wqx' | 'synonyms'>
const general = (given: Given): Analyte => ({ ...given, family: 'general', cas: null })

export const GENERAL: readonly Analyte[] = [
  general({
    id: 'ph',
    name: 'pH',
    home: 'std units',
    measure: 'ph',
    usual: [3, 12],
    wqx: 'pH',
    synonyms: ['pH, lab', 'pH (lab)', 'pH, field', 'pH at 25 C', 'Lab pH', 'Field pH'],
  }),
  general({
    id: 'specific-conductance',
    name: 'Specific conductance',
    home: 'uS/cm',
    measure: 'conductance',
    usual: [10, 20000],
    wqx: 'Specific conductance',
    synonyms: [
      'Conductivity',
      'Electrical conductivity',
      'Spec. cond.',
      'Conductivity at 25 C',
      'Sp. conductance',
      'Specific conductivity',
    ],
  }),
  general({
    id: 'turbidity',
    name: 'Turbidity',
    home: 'NTU',
    measure: 'turbidity',
    usual: [0.02, 2000],
    wqx: 'Turbidity',
    synonyms: ['Turb.', 'Turbidity, lab'],
  }),
  general({
    id: 'colour',
    name: 'Colour',
    home: 'color units',
    measure: 'colour',
    usual: [0.5, 1000],
    wqx: 'Color',
    synonyms: ['Color', 'Apparent color', 'True color', 'Apparent colour', 'True colour'],
  }),
  general({
    id: 'odour',
    name: 'Odour',
    home: 'threshold odor number',
    measure: 'odour',
    usual: null,
    wqx: null,
    synonyms: ['Odor', 'Threshold odor'],
  }),
  general({
    id: 'total-dissolved-solids',
    name: 'Total dissolved solids',
    home: 'mg/L',
    measure: 'mass',
    usual: [5, 20000],
    wqx: 'Total dissolved solids',
    synonyms: [
      'TDS',
      'Dissolved solids',
      'Solids, total dissolved',
      'Residue, filterable',
      'Dissolved solids, total',
    ],
  }),
  {
    ...general({
      id: 'hardness',
      name: 'Hardness',
      home: 'mg/L as CaCO3',
      measure: 'mass',
      usual: [2, 2500],
      wqx: 'Hardness, Ca, Mg',
      synonyms: [
        'Total hardness',
        'Hardness, total',
        'Hardness as CaCO3',
        'Hardness, Ca, Mg',
        'Hardness, calculated',
        'Hardness, total (as CaCO3)',
      ],
    }),
    forms: [{ form: 'CaCO3', factor: 1, marks: ['caco3'] }],
  },
  general({
    id: 'foaming-agents',
    name: 'Foaming agents',
    home: 'mg/L',
    measure: 'mass',
    usual: [0.01, 10],
    wqx: null,
    synonyms: ['MBAS', 'Surfactants', 'Detergents', 'Surfactants (MBAS)'],
  }),
  general({
    id: 'iron-manganese',
    name: 'Iron + manganese',
    home: 'mg/L',
    measure: 'mass',
    usual: [0.005, 60],
    wqx: null,
    synonyms: ['Fe + Mn', 'Iron and manganese', 'Combined iron and manganese'],
  }),
]

const plain = (id: string, name: string, synonyms: readonly string[]): Analyte =>
  general({ id, name, home: 'mg/L', measure: 'mass', usual: null, wqx: null, synonyms })

/** What stands on many sheets and has no value in the schemes here: read, kept, and told to have none. */
export const WITHOUT_LIMITS: readonly Analyte[] = [
  plain('free-chlorine', 'Free chlorine', [
    'Chlorine, free',
    'Free residual chlorine',
    'Free chlorine residual',
  ]),
  plain('total-chlorine', 'Total chlorine', [
    'Chlorine, total',
    'Chlorine',
    'Residual chlorine',
    'Chlorine residual',
    'Total residual chlorine',
  ]),
  plain('tannin', 'Tannin', ['Tannins', 'Tannin and lignin', 'Tannins & lignins', 'Tannins and lignins']),
  plain('total-organic-carbon', 'Total organic carbon', ['TOC', 'Organic carbon']),
  plain('dissolved-oxygen', 'Dissolved oxygen', ['DO', 'Oxygen, dissolved']),
  plain('total-suspended-solids', 'Total suspended solids', ['TSS', 'Suspended solids']),
  plain('phosphate', 'Phosphate', ['Orthophosphate', 'PO4', 'Ortho-phosphate', 'Phosphate, ortho']),
  plain('phosphorus', 'Phosphorus', ['Total phosphorus', 'Phosphorus, total']),
  plain('bromide', 'Bromide', ['Br', 'Br-']),
  plain('strontium', 'Strontium', ['Sr', 'Strontium, total']),
  plain('vanadium', 'Vanadium', ['V', 'Vanadium, total']),
  plain('molybdenum', 'Molybdenum', ['Mo', 'Molybdenum, total']),
  plain('cobalt', 'Cobalt', ['Co', 'Cobalt, total']),
  plain('lithium', 'Lithium', ['Li', 'Lithium, total']),
]

const radio = (
  id: string,
  name: string,
  cas: string | null,
  wqx: string | null,
  synonyms: readonly string[],
): Analyte => ({
  id,
  name,
  family: 'radionuclide',
  home: 'pCi/L',
  measure: 'activity',
  usual: id === 'radon' ? [5, 500000] : [0.05, 5000],
  cas,
  ...(cas === null ? {} : { casSeen: 'memory' as const }),
  wqx,
  synonyms,
})

export const RADIOACTIVITY: readonly Analyte[] = [
  radio('radon', 'Radon-222', '14859-67-7', 'Radon-222', ['Radon', 'Rn-222', 'Rn', 'Radon in water']),
  radio('gross-alpha', 'Gross alpha', null, 'Gross alpha radioactivity, (Thorium-230 ref std)', [
    'Gross alpha particle activity',
    'Alpha, gross',
    'Gross alpha activity',
  ]),
  radio('radium-226', 'Radium-226', '13982-63-3', 'Radium-226', ['Ra-226', 'Radium 226']),
  radio('radium-228', 'Radium-228', '15262-20-1', 'Radium-228', ['Ra-228', 'Radium 228']),
  radio('radium-226-228', 'Radium-226 + radium-228', null, null, [
    'Combined radium',
    'Radium 226/228',
    'Radium, combined',
  ]),
]
