import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import type { UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'

const TESTS: ReadonlySet<string> = new Set(['recovery-test', 'drawdown-test', 'step-test'])

/** The well tests of the logbook, newest first, each with its report. */
export function Tests({
  wellId,
  facts,
  units,
}: {
  wellId: string
  facts: readonly CurrentFact[]
  units: UnitSystem
}) {
  const tests = facts.filter(({ fact }) => TESTS.has(fact.kind)).reverse()
  return (
    <section aria-labelledby="tests" className="stack-tight">
      <h2 id="tests">Well tests</h2>
      {tests.length === 0 ? (
        <p>
          No timed test yet. A recovery test, the level every minute after the pump stops, gives the capacity
          without knowing the flow.
        </p>
      ) : (
        <ul>
          {tests.map(({ id, on, fact }) => (
            <li key={id}>
              <Link href={paths.test(wellId, id)} prefetch={false}>
                Report of {showDay(on, units)}
              </Link>
              : {describeFact(fact, units)}
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
