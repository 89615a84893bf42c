import { slug } from './keys'
import { DUTY_LIBRARY } from './library'

const HINTS = new Map(DUTY_LIBRARY.map((template) => [slug(template.name), template.partsHint]))

/** What to have along for a duty of that key; empty where the library does not know it. */
export function partsHint(dutyKey: string): readonly string[] {
  return HINTS.get(dutyKey) ?? []
}

/**
 * What to have on the truck for a list of duties, one key for each time it is to be done: every part with the number
 * of duties that want it, the most wanted first, then by name. A hint, not a count of pieces: tools serve many wells.
 */
export function truckList(dutyKeys: readonly string[]): { part: string; duties: number }[] {
  const counts = new Map<string, number>()
  for (const part of dutyKeys.flatMap(partsHint)) counts.set(part, (counts.get(part) ?? 0) + 1)
  return [...counts]
    .map(([part, duties]) => ({ part, duties }))
    .sort((a, b) => b.duties - a.duties || (a.part < b.part ? -1 : 1))
}
