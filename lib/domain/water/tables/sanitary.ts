/**
 * Sanitary inspection forms. The WHO dug-well form (12 questions), the score classes and the matrix with E. coli are FROM
 * MEMORY: WHO, Guidelines for drinking-water quality, 2nd ed., Vol. 3 (1997), Annex 2; 4th ed., Figs 5.2 and 5.3; RADWQ
 * handbook (2012). They are shown with that mark until someone has read them in the source. The sanitary-inspection packages of 2024
 * are said to drop the simple sum (memory).
 */
import type { Sourced } from '../types'

export type SanitaryForm = Sourced & { id: string; title: string; questions: readonly string[] }

export const WHO_DUG_WELL: SanitaryForm = {
  id: 'who-dug-well',
  title: 'Dug well with hand-pump',
  source: 'WHO Guidelines for drinking-water quality, 2nd ed., Vol. 3',
  section: 'Annex 2',
  date: '1997',
  seen: 'memory',
  questions: [
    'Is there a latrine within 10 m of the well?',
    'Is the nearest latrine on higher ground than the well?',
    'Is there any other pollution (animal waste, rubbish, surface water) within 10 m of the well?',
    'Is the drainage poor, so that water stands within 2 m of the floor?',
    'Is the drainage channel faulty or broken, so that water ponds?',
    'Is the wall or fence inadequate, so that animals can get in?',
    'Is the concrete floor less than 1 m wide around the pump?',
    'Does water pond on the concrete floor?',
    'Are there cracks in the concrete floor?',
    'Is the pump loose at its base, so that water could get in?',
    'Is the cover of the well unsanitary?',
    'Are the walls of the well inadequately sealed for 3 m below ground?',
  ],
}

export const GROUNDWATER_2030: SanitaryForm = {
  id: 'groundwater2030-dug-well',
  title: 'Boreholes and shallow dug wells',
  source: 'UK NERC EIDC data set doi 10.5285/bc1a979b-7cc9-4c9d-9fe4-a8510cd62f8e',
  section: 'form v4, wording condensed',
  date: '2014',
  seen: 'seen',
  questions: [
    'Does the cement floor extend less than 1.5 m from the well?',
    'Does water pond on the cement floor?',
    'Are there cracks in the cement floor that could let water in?',
    'Is the pump loose from its base, so that water could enter the casing?',
    'Does water pond beyond the cement floor, within 3 m?',
    'Is the drainage channel cracked, broken or in need of cleaning?',
    'Can animals come within 10 m (no fence)?',
    'Are there latrines within 10 m?',
    'Are there more latrines within 30 m?',
    'Is there open water within 20 m?',
    'Are there uncapped wells within 30 m?',
    'Is there scattered waste within 30 m?',
    'Are there waste dumps within 30 m?',
    'Is the cover of the well unsanitary?',
    'Are the walls inadequately sealed at any point below ground?',
  ],
}

export type RiskClass = 'low' | 'intermediate' | 'high' | 'very-high'

/** Score classes on a form of ten questions: up to and including the score. Longer forms are scaled to ten. From memory. */
export const SCORE_CLASSES: readonly { upTo: number; risk: RiskClass }[] = [
  { upTo: 2, risk: 'low' },
  { upTo: 5, risk: 'intermediate' },
  { upTo: 8, risk: 'high' },
  { upTo: 10, risk: 'very-high' },
]

/** E. coli in 100 mL, up to and including. 1 to 10 and 11 to 100 were read (PLOS ONE 0138451, Fig. 4); the last from memory. */
export const COLI_CLASSES: readonly { upTo: number; risk: RiskClass }[] = [
  { upTo: 0, risk: 'low' },
  { upTo: 10, risk: 'intermediate' },
  { upTo: 100, risk: 'high' },
  { upTo: Number.POSITIVE_INFINITY, risk: 'very-high' },
]
