/** What to put on the truck for a round. */

/** A stop with the keys of the duties to be done there. */
export type PickStop = { id: string; label: string; dutyKeys: readonly string[] }

/** A part, for how many duties it is wanted, and at which stops. A hint: tools serve many stops. */
export type PickLine = {
  part: string
  duties: number
  stops: { id: string; label: string; duties: number }[]
}

/**
 * The parts of a round: the most wanted first, then by name; stops in the order of the round.
 * `partsOf` says what a duty asks for, empty where it is not known; `unknown` lists those keys, once each.
 */
export function pickList(
  stops: readonly PickStop[],
  partsOf: (dutyKey: string) => readonly string[],
): { lines: PickLine[]; unknown: string[] } {
  const lines = new Map<string, PickLine>()
  const unknown = new Set<string>()
  for (const { id, label, dutyKeys } of stops) {
    for (const key of dutyKeys) {
      const parts = partsOf(key)
      if (parts.length === 0) unknown.add(key)
      for (const part of parts) {
        const line = lines.get(part) ?? { part, duties: 0, stops: [] }
        line.duties++
        const here = line.stops.at(-1)
        if (here?.id === id) here.duties++
        else line.stops.push({ id, label, duties: 1 })
        lines.set(part, line)
      }
    }
  }
  const sorted = [...lines.values()].sort((a, b) => b.duties - a.duties || (a.part < b.part ? -1 : 1))
  return { lines: sorted, unknown: [...unknown] }
}
