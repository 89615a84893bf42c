import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Chain } from '@/lib/domain/water/chain'
import { paths } from '@/lib/paths'

type Props = { wellId: string; chains: readonly Chain[]; units: UnitSystem }

/** Every positive that was carried to its end, or is still open; nothing where there never was one. */
export function Chains({ wellId, chains, units }: Props) {
  if (chains.length === 0) return null
  return (
    <section className="stack-tight" aria-labelledby="chains">
      <h2 id="chains">After a positive</h2>
      <ul className="plain-list stack-tight">
        {[...chains].reverse().map((chain) => (
          <li key={`${chain.key} ${chain.opened.on} ${chain.opened.sampleId}`}>
            <Status tone={toneOf(chain)}>{chain.name}</Status>: {wordsOf(chain, units)}{' '}
            <Link href={paths.chain(wellId, chain.key)} prefetch={false}>
              Steps<span className="unseen"> for {chain.name.toLowerCase()}</span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  )
}

function toneOf({ closed }: Chain) {
  if (closed === null) return 'alarm'
  return closed.how === 'clear-samples' ? 'calm' : 'unsure'
}

function wordsOf({ opened, closed }: Chain, units: UnitSystem): string {
  const from = showDay(opened.on, units)
  if (closed === null) return `open since ${from}.`
  const to = showDay(closed.on, units)
  return closed.how === 'clear-samples'
    ? `${from} to ${to}, cleared by clear samples.`
    : `${from} to ${to}, closed by ${closed.by} without them: ${closed.reason}`
}
