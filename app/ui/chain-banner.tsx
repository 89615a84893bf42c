import Link from 'next/link'
import type { ChainSummary } from '@/lib/domain/logbook/water-summary'
import type { Day } from '@/lib/domain/quantity/day'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { chainName } from '@/lib/domain/water/chain-marks'
import { noticeHeading } from '@/lib/domain/water/notice'
import { paths } from '@/lib/paths'
import { showDay } from './show-day'
import { Status } from './status'

export type Chains = readonly Pick<ChainSummary, 'key' | 'name' | 'openedOn'>[]

/**
 * What the household is warned of, on every page of the well until it is cleared; nothing where nothing is open.
 * On paper too. `linked`: with the ways to the chain and the notice, for those who may walk them.
 */
export function ChainBanner({
  wellId,
  chains,
  units,
  linked = true,
}: {
  wellId: string
  chains: Chains
  units: UnitSystem
  linked?: boolean
}) {
  const [first] = chains
  if (!first) return null
  const { title, lead } = noticeHeading(chains.map((chain) => chain.key))
  return (
    <section className="chain-banner" aria-label="Water not cleared">
      <p>
        <Status tone="alarm">{title}</Status>
      </p>
      <p>{lead}</p>
      <ul>
        {chains.map((chain) => (
          <li key={chain.key}>
            {chain.name}, not cleared since {showDay(chain.openedOn, units)}.{' '}
            {linked ? (
              <span className="no-print">
                <Link href={paths.chain(wellId, chain.key)} prefetch={false}>
                  Steps for {chain.name.toLowerCase()}
                </Link>
                {' · '}
                <Link href={paths.notice(wellId, chain.key)} prefetch={false}>
                  Notice to print
                </Link>
              </span>
            ) : null}
          </li>
        ))}
      </ul>
    </section>
  )
}

/** The same in a line of a list; nothing where no chain is open. */
export function ChainMark({
  chain,
  since,
  units,
}: {
  chain: string | null
  since: Day | null
  units: UnitSystem
}) {
  if (chain === null) return null
  return (
    <Status tone="alarm">
      {chainName(chain)} not cleared{since ? ` since ${showDay(since, units)}` : ''}
    </Status>
  )
}
