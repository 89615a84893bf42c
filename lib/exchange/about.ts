/** Lines that are about another line name it by its id, which a file does not carry: here they name it by what it says. */
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { contentId } from '@/lib/records/ids'
import { keyOf } from '@/lib/records/well-fields'
import { contentKey } from './content'

/**
 * The facts of a well with each "of" turned into the id that an import gives the line it is about. So an answer that was
 * exported and imported still answers, and the same file compared with the logbook it came from says nothing new.
 */
export function byContent<T extends Pick<CurrentFact, 'id' | 'on' | 'time' | 'fact'>>(
  label: string,
  facts: readonly T[],
): T[] {
  const needed = facts.flatMap(({ fact }) => ('of' in fact ? [fact.of] : []))
  if (needed.length === 0) return [...facts]
  const lines = new Map(facts.map((line) => [line.id, line]))
  return facts.map((line) => {
    const { fact } = line
    const target = 'of' in fact ? lines.get(fact.of) : undefined
    if (!('of' in fact) || !target) return line
    const of = contentId(keyOf(label), ...contentKey(target.on, target.time, target.fact))
    return { ...line, fact: { ...fact, of } }
  })
}
