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
