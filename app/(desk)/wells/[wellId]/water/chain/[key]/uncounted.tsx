import { showDay } from '@/app/ui/show-day'
import type { CurrentFact } from '@/lib/domain/logbook/entries'
import { sampleOf } from '@/lib/domain/logbook/water-sample'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Chain } from '@/lib/domain/water/chain'
import { whyNotClearing } from '@/lib/domain/water/chain-marks'

type Props = { chain: Chain; facts: readonly CurrentFact[]; units: UnitSystem }

/** Samples since the chain opened that cannot clear it whatever they found, each with its reason. */
export function Uncounted({ chain, facts, units }: Props) {
  if (chain.closed !== null) return null
  const positive = new Set(chain.positives.map(({ sampleId }) => sampleId))
  const held = facts.flatMap(({ fact, id }) => {
    if (fact.kind !== 'sample' || positive.has(id) || fact.sampledAt < chain.opened.on) return []
    const why = whyNotClearing(sampleOf(fact, id), chain.key)
    return why === null ? [] : [{ id, on: fact.sampledAt.slice(0, 10), why }]
  })
  if (held.length === 0) return null
  return (
    <>
      <p>Not counted as clear:</p>
      <ul>
        {held.map(({ id, on, why }) => (
          <li key={id}>
            The sample of {showDay(on, units)}: {why}.
          </li>
        ))}
      </ul>
    </>
  )
}
