import type { Use } from '@/lib/domain/quantity'
import type { PlaceFact } from './place-kinds'

type Show = (si: number, use: Use) => string

const WAYS = { phone: 'by phone', survey: 'by survey', map: 'off a map' } as const

/** A measured place as one sentence: the fix, the ties, and how deep. */
export function describePlace({ fix, ties, side, cover, paced }: PlaceFact, show: Show): string {
  const said = [
    ...(fix
      ? [`${fix.typed} ${WAYS[fix.how]}${fix.accuracy ? `, ±${show(fix.accuracy.si, 'distance')}` : ''}`]
      : []),
    ...ties.map(({ mark, tape }) => `${show(tape.si, 'distance')} from ${mark}`),
    ...(side ? [`on the ${side}`] : []),
    ...(paced ? [`paced from ${paced.mark}`] : []),
    ...(cover ? [`${show(cover.si, 'depth')} of cover`] : []),
  ]
  return `Place measured: ${said.length > 0 ? said.join('; ') : 'a note alone'}.`
}
