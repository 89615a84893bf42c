/**
 * A well that fails bacteria again after a proper disinfection has a fault: surface water is getting in. Chlorinating it for
 * ever is no answer. (Brant County, AGWT and St. Clair County say as much of dug wells; persistent contamination means a
 * structural fault.)
 */
import { addMonths, type Day } from '@/lib/domain/quantity/day'
import type { WaterEvent } from './events'

export type FaultRules = {
  /** How long after a disinfection a new positive counts as a failure of it. House rule, no published source. */
  repeatMonths: number
  /** A proper disinfection: at least 50 mg/L for at least 12 h (Ontario, Water Supply Wells ch. 8). */
  properTargetMgL: number
  properContactHours: number
}

export type Fault = {
  /** False where strength or contact time of the disinfection were not written down. */
  certain: boolean
  disinfectedOn: Day
  positiveOn: Day
  text: string
  inspect: readonly string[]
}

/** What to look at, in the order surface water gets in. From the WHO dug-well form and common practice. */
export const INSPECT: readonly string[] = [
  'The cap and cover: gaps, cracks, vents without a screen, a head that sits below ground in a wet place.',
  'The seal round the casing: cracks, settled soil, a gap you can follow down; clay or grout for the first 3 m.',
  'The joints of the lining and the pitless outlet: stains, roots, a trickle after rain.',
  'The ground round the well: a hollow, ponding, runoff that reaches it, drainage that is broken.',
  'Setback: septic tank and field, privy, animals, manure, waste; is any of them uphill?',
  'Floods: could water have stood over the head since the last clear sample?',
  'The supply itself: tank, dead ends, a cross-connection, a tap that was dirty when the bottle was filled.',
]

/**
 * The fault a positive on `on` shows, or null. A disinfection known to be too weak or too short is no proof; one whose
 * strength or time is unknown makes it likely. A repair of the well after the disinfection wipes the slate.
 */
export function faultOf(on: Day, events: readonly WaterEvent[], rules: FaultRules): Fault | null {
  const repairedOn = events.reduce<Day | null>(
    (last, event) =>
      event.kind === 'well-repaired' && event.on < on && (last === null || event.on > last) ? event.on : last,
    null,
  )
  const tries = events
    .filter((event) => event.kind === 'disinfected')
    .filter(
      (event) =>
        event.on < on &&
        on <= addMonths(event.on, rules.repeatMonths) &&
        (repairedOn === null || event.on >= repairedOn),
    )
    .filter(
      (event) =>
        (event.targetMgL ?? rules.properTargetMgL) >= rules.properTargetMgL &&
        (event.contactHours ?? rules.properContactHours) >= rules.properContactHours,
    )
    .sort((a, b) => (a.on < b.on ? 1 : -1))
  const last = tries.find((event) => event.targetMgL !== null && event.contactHours !== null) ?? tries[0]
  if (!last) return null
  const certain = last.targetMgL !== null && last.contactHours !== null
  return { certain, disinfectedOn: last.on, positiveOn: on, text: faultText(certain), inspect: INSPECT }
}

function faultText(certain: boolean): string {
  return certain
    ? 'Bacteria came back after a proper disinfection. That is a fault in the well, not a lack of chlorine: water from the surface is getting in. Find the way in and close it before the well is disinfected again.'
    : 'Bacteria came back after a disinfection whose strength or time was not written down. If it was done properly, the well has a fault: water from the surface is getting in. Look for the way in before you disinfect again.'
}
