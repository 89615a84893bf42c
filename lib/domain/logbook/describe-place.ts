import { sayStep } from '@/lib/domain/place'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { PlaceFact } from './place-kinds'
import { sayReach } from './place-words'

const WAYS = { phone: 'by phone', survey: 'by survey', map: 'off a map' } as const

/** A measured place as one sentence: the fix, the ties, and how deep. */
export function describePlace({ fix, ties, side, cover, paced }: PlaceFact, units: UnitSystem): string {
  const said = [
    ...(fix
      ? [`${fix.typed} ${WAYS[fix.how]}${fix.accuracy ? `, ±${sayStep(fix.accuracy.si, units)}` : ''}`]
      : []),
    ...ties.map(({ mark, tape }) => `${formatQuantity(tape.si, 'distance', units)} from ${mark}`),
    ...(side ? [`on the ${side}`] : []),
    ...(paced ? [`paced from ${paced.mark}`] : []),
    ...(cover ? [`${sayReach(cover.si, units)} of cover`] : []),
  ]
  return `Place measured: ${said.length > 0 ? said.join('; ') : 'a note alone'}.`
}
