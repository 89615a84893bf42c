import { sayStep } from '@/lib/domain/place'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { PlaceFact } from './place-kinds'
import { sayReach } from './place-words'

const WAYS = { phone: 'by phone', survey: 'by survey', map: 'off a map' } as const

/** A measured place as one sentence: the fix, the ties, and how deep. */
export const describePlace = (fact: PlaceFact, units: UnitSystem): string =>
  `Place measured: ${placeInBrief(fact, units)}.`

/** What a measured place says of the head, in brief: the fix, the ties, and how deep. */
export function placeInBrief({ fix, ties, side, cover, paced }: PlaceFact, units: UnitSystem): string {
  const said = [
    ...(fix
      ? [`${fix.typed} ${WAYS[fix.how]}${fix.accuracy ? `, ±${sayStep(fix.accuracy.si, units)}` : ''}`]
      : []),
    ...ties.map(({ mark, tape }) => `${formatQuantity(tape.si, 'distance', units)} from ${mark}`),
    ...(side ? [`on the ${side}`] : []),
    ...(paced ? [`paced from ${paced.mark}`] : []),
    ...(cover ? [`${sayReach(cover.si, units)} of cover`] : []),
  ]
  return said.length > 0 ? said.join('; ') : 'a note alone'
}
