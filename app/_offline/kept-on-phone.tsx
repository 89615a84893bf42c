import { paths } from '@/lib/paths'

/** In the place of a form whose visit is on this phone now. Plain links: they lead on with signal and without. */
export function KeptOnPhone({ says, wellId }: { says: string; wellId: string }) {
  return (
    <div className="done" role="status">
      <p>
        <strong>{says}</strong>
      </p>
      <ul>
        <li>
          <a href="/unsent">What waits on this phone</a>
        </li>
        <li>
          <a href={paths.well(wellId)}>Back to the well</a>
        </li>
        <li>
          <a href={paths.visit(wellId)}>Log another visit to this well</a>
        </li>
      </ul>
    </div>
  )
}
