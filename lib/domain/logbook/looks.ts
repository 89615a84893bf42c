import type { Fact } from './kinds'

/** What is needed of a line to tell who looked at it. */
type Said = { id: string; spokenBy: string; byName: string | null; fact: Fact }

/**
 * The lab sheets of households that somebody of the outfit confirmed, said to be confirmed by that person. A look speaks of
 * the words it saw: a sheet that was corrected afterwards waits for another one. The last look counts, so that a question
 * takes a confirmation back.
 */
export function withLooks<T extends Said>(facts: readonly T[]): T[] {
  const looks = lastLooks(facts)
  if (looks.size === 0) return [...facts]
  return facts.map((line) => {
    const { fact } = line
    const look = looks.get(line.id)
    if (fact.kind !== 'sample' || fact.enteredBy !== 'owner' || !look || !sawWords(look, line)) return line
    const { confirmedBy: _, ...sheet } = fact
    if (look.verdict === 'queried') return { ...line, fact: sheet }
    return { ...line, fact: { ...sheet, confirmedBy: look.byName ?? 'the outfit' } }
  })
}

export type Look = {
  id: string
  byName: string | null
  verdict: 'confirmed' | 'queried'
  text: string | undefined
}

/** The last look at each line, by the id of the line. */
export function lastLooks(facts: readonly Said[]): Map<string, Look> {
  const looks = new Map<string, Look>()
  for (const { id, byName, fact } of facts) {
    if (fact.kind !== 'confirmation') continue
    const before = looks.get(fact.of)
    if (before && before.id > id) continue
    looks.set(fact.of, { id, byName, verdict: fact.verdict, text: fact.text })
  }
  return looks
}

/** Whether a look is later than the words that now count. Ids that are not made in order of time cannot tell: then it is. */
export function sawWords(look: Look, line: Pick<Said, 'spokenBy'>): boolean {
  return !(inTime(look.id) && inTime(line.spokenBy)) || look.id > line.spokenBy
}

/** UUID version 7: ids of this kind sort by the time at which they were made (RFC 9562, section 5.7). */
const inTime = (id: string) => id.charAt(14) === '7'
