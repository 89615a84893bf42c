import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { TableFrame } from '@/app/ui/table-frame'
import type { LeftOut } from '@/lib/domain/place'
import type { UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { RoundProposal } from '@/lib/records/round-proposal'

/** What is due and not proposed, with the reason; nothing is left out in silence. */
export function LeftOutList({ found, units }: { found: RoundProposal; units: UnitSystem }) {
  const left = byReason(found.proposal.leftOut.filter((one) => one.code !== 'no-coordinate'))
  if (left.length + found.onRounds.length === 0) {
    return <p>Everything that is due by then and can be driven to is in the proposal.</p>
  }
  return (
    <section aria-labelledby="left-out" className="stack-tight">
      <h2 id="left-out">Left out, and why</h2>
      <TableFrame label="Left out, and why">
        <table className="table">
          <thead>
            <tr>
              <th scope="col">Well</th>
              <th scope="col">Due there</th>
              <th scope="col">Why not</th>
            </tr>
          </thead>
          <tbody>
            {left.map(({ wellId, label, duties, why }) => (
              <tr key={`${wellId}-${why}`}>
                <th scope="row" className="number">
                  <Link href={paths.well(wellId)} prefetch={false}>
                    {label}
                  </Link>
                </th>
                <td>{duties.join(', ')}</td>
                <td>{why}</td>
              </tr>
            ))}
            {found.onRounds.map(({ wellId, label, roundId, roundName, day }) => (
              <tr key={`${wellId}-${roundId}`}>
                <th scope="row" className="number">
                  <Link href={paths.well(wellId)} prefetch={false}>
                    {label}
                  </Link>
                </th>
                <td className="muted">as planned there</td>
                <td>
                  On a round already:{' '}
                  <Link href={paths.round(roundId)} prefetch={false}>
                    {roundName}
                  </Link>
                  , {showDay(day, units)}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </section>
  )
}

/** A well is left out by weight, health first: what the same reason keeps away stands in one line, in the first one's place. */
function byReason(left: readonly LeftOut[]): LeftOut[] {
  const lines = new Map<string, LeftOut>()
  for (const one of left) {
    const key = `${one.wellId} ${one.why}`
    const before = lines.get(key)
    lines.set(key, before ? { ...before, duties: [...before.duties, ...one.duties] } : one)
  }
  return [...lines.values()]
}
