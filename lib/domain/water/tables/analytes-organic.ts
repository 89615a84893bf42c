/** Volatile organics, pesticides and PFAS: names on lab sheets, CAS numbers, WQX names, usual ranges (house figures). */
import type { Analyte, Seen } from '../types'

const volatile = (
  id: string,
  name: string,
  cas: string | null,
  wqx: string | null,
  synonyms: readonly string[],
): Analyte => ({
  id,
  name,
  family: 'organic',
  home: 'mg/L',
  measure: 'mass',
  usual: [0.00002, 5],
  cas,
  wqx,
  synonyms,
})

export const VOLATILES: readonly Analyte[] = [
  volatile('benzene', 'Benzene', '71-43-2', 'Benzene', []),
  volatile('toluene', 'Toluene', '108-88-3', 'Toluene', ['Methylbenzene']),
  volatile('ethylbenzene', 'Ethylbenzene', '100-41-4', 'Ethylbenzene', ['Ethyl benzene']),
  volatile('xylenes', 'Xylenes (total)', '1330-20-7', 'Xylene', [
    'Xylene',
    'Xylenes',
    'Total xylenes',
    'Xylenes, total',
    'Xylene (total)',
  ]),
  volatile('mtbe', 'MTBE', '1634-04-4', 'Methyl tert-butyl ether', [
    'Methyl tert-butyl ether',
    'Methyl-t-butyl ether',
    'Methyl tertiary butyl ether',
  ]),
  volatile('vinyl-chloride', 'Vinyl chloride', '75-01-4', 'Vinyl chloride', ['Chloroethene', 'VC']),
  volatile('carbon-tetrachloride', 'Carbon tetrachloride', '56-23-5', 'Carbon tetrachloride', [
    'Tetrachloromethane',
  ]),
  volatile('1-2-dichloroethane', '1,2-Dichloroethane', '107-06-2', '1,2-Dichloroethane', [
    '1,2-DCA',
    'Ethylene dichloride',
    'EDC',
  ]),
  volatile('trichloroethylene', 'Trichloroethylene', '79-01-6', 'Trichloroethylene', [
    'TCE',
    'Trichloroethene',
  ]),
  volatile('tetrachloroethylene', 'Tetrachloroethylene', '127-18-4', 'Tetrachloroethylene', [
    'PCE',
    'Tetrachloroethene',
    'Perchloroethylene',
    'Perc',
  ]),
  volatile('1-1-1-trichloroethane', '1,1,1-Trichloroethane', '71-55-6', '1,1,1-Trichloroethane', [
    '1,1,1-TCA',
  ]),
  volatile('cis-1-2-dichloroethylene', 'cis-1,2-Dichloroethylene', '156-59-2', 'cis-1,2-Dichloroethylene', [
    'cis-1,2-DCE',
    'cis-1,2-Dichloroethene',
  ]),
  volatile('tce-pce', 'TCE + PCE', null, null, ['Sum of trichloroethene and tetrachloroethene']),
]

export const PESTICIDES: readonly Analyte[] = [
  { ...volatile('atrazine', 'Atrazine', '1912-24-9', 'Atrazine', []), family: 'pesticide' },
  {
    ...volatile('pesticides-total', 'Pesticides, total', null, null, [
      'Total pesticides',
      'Sum of pesticides',
    ]),
    family: 'pesticide',
  },
]

const pfas = (
  id: string,
  name: string,
  cas: string | null,
  casSeen: Seen,
  wqx: string | null,
  synonyms: readonly string[],
): Analyte => ({
  id,
  name,
  family: 'pfas',
  home: 'ng/L',
  measure: 'mass',
  usual: [0.1, 50000],
  cas,
  ...(cas === null ? {} : { casSeen }),
  wqx,
  synonyms,
})

export const PFAS: readonly Analyte[] = [
  pfas('pfoa', 'PFOA', '335-67-1', 'memory', 'PFOA ion', [
    'Perfluorooctanoic acid',
    'Perfluorooctanoic acid (PFOA)',
  ]),
  pfas('pfos', 'PFOS', '1763-23-1', 'seen', 'Perfluorooctanesulfonate (PFOS)', [
    'Perfluorooctanesulfonic acid',
    'Perfluorooctanesulfonic acid (PFOS)',
  ]),
  pfas('pfhxs', 'PFHxS', '355-46-4', 'memory', 'Perfluorohexanesulfonate', [
    'Perfluorohexanesulfonic acid',
    'Perfluorohexanesulfonic acid (PFHxS)',
  ]),
  pfas('pfna', 'PFNA', '375-95-1', 'memory', 'Perfluorononanoic acid', ['Perfluorononanoic acid (PFNA)']),
  pfas(
    'hfpo-da',
    'HFPO-DA',
    '13252-13-6',
    'memory',
    'Tetrafluoro-2-(heptafluoropropoxy)propanoic acid [HFPO-DA (GenX)]',
    ['GenX', 'HFPO-DA (GenX)', 'Hexafluoropropylene oxide dimer acid'],
  ),
  pfas('pfbs', 'PFBS', '375-73-5', 'memory', null, [
    'Perfluorobutanesulfonic acid',
    'Perfluorobutanesulfonic acid (PFBS)',
  ]),
  pfas('pfas-sum-20', 'PFAS sum of 20', null, 'memory', null, ['Sum of PFAS', 'PFAS-20', 'Sum of 20 PFAS']),
  pfas('pfas-total', 'PFAS total', null, 'memory', null, ['Total PFAS']),
  {
    ...pfas('pfas-hazard-index', 'PFAS hazard index', null, 'memory', null, ['Hazard index', 'PFAS HI']),
    home: 'unitless',
    measure: 'ratio',
    usual: null,
  },
]
