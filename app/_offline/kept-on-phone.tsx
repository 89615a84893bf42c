import { paths } from '@/lib/paths'

/** In the place of a form whose visit is on this phone now. Plain links: they lead on with signal and without. */
export function KeptOnPhone({
  says,
  wellId,
  roundId,
  another = true,
}: {
  says: string
  wellId: string
  /** The round whose stop was closed by it. */
  roundId?: string | undefined
  /** Whether it was a visit form that is kept, and not a test or a lab sheet. */
  another?: boolean
}) {
  return (
    <div className="done" role="status">
      <p>
        <strong>{says}</strong>
      </p>
      <ul>
        {roundId ? (
          <li>
            <a href={paths.round(roundId)}>Back to the round</a>
          </li>
        ) : null}
        <li>
          <a href="/unsent">What waits on this phone</a>
        </li>
        <li>
          <a href={paths.well(wellId)}>Back to the well</a>
        </li>
        <li>
          <a href={paths.visit(wellId)}>Log {another ? 'another visit' : 'a visit'} to this well</a>
        </li>
      </ul>
    </div>
  )
}
