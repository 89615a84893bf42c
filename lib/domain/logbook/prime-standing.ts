import { type DatedValveTest, type PrimeStanding, primeStanding } from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import { slug } from '@/lib/domain/upkeep/keys'
import type { CurrentFact } from './entries'

/** Work that opens the suction line, by the words in the keys of duties. */
const OPENS_LINE = /cartridge|o-ring|drop-pipe|check-valve|housing/
const OPENING_PARTS: ReadonlySet<string> = new Set([
  'pump',
  'filter housing',
  'cartridge',
  'check valve',
  'drop pipe',
  'o-rings',
])

const OPENING_EVENTS: ReadonlySet<string> = new Set(['pump-replaced', 'cartridge-changed', 'rebuilt'])

/** Losses of prime and what they point to: the valve, or work that opened the line. */
export function primeOf(facts: readonly CurrentFact[]): PrimeStanding {
  const losses: Day[] = []
  const valves: Day[] = []
  const opened: Day[] = []
  const tests: DatedValveTest[] = []
  for (const { fact, on } of facts) {
    if (fact.kind === 'event' && fact.event === 'prime-lost') losses.push(on)
    if (fact.kind === 'event' && OPENING_EVENTS.has(fact.event)) opened.push(on)
    if (fact.kind === 'valve-test') {
      tests.push({ on, beforePa: fact.before.si, afterPa: fact.after.si, heldS: fact.held.si })
    }
    if (fact.kind === 'service-done') {
      if (fact.duties.some((duty) => OPENS_LINE.test(slug(duty)))) opened.push(on)
      if (fact.parts.some(({ part }) => part === 'check valve')) valves.push(on)
      if (fact.parts.some(({ part }) => OPENING_PARTS.has(part))) opened.push(on)
    }
  }
  return primeStanding(losses, valves, opened, tests)
}
