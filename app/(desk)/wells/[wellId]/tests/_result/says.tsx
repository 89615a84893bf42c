import { Status } from '@/app/ui/status'
import type { Findings } from '@/lib/forms/test/findings'

/** The findings of a test: its sentence, its figures, and what speaks against leaning on them. */
export function Says({ found, early }: { found: Findings; early?: boolean }) {
  return (
    <div className="stack-tight">
      {found.refused ? (
        <p>
          <Status tone="unsure">{early ? 'No result yet' : 'No result'}</Status>: {found.says}
        </p>
      ) : (
        <p>
          <strong>{found.says}</strong>
        </p>
      )}
      {found.figures.length > 0 ? (
        <dl className="figures">
          {found.figures.map(({ what, value }) => (
            <div key={what}>
              <dt>{what}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
      ) : null}
      {found.doubts.length > 0 ? (
        <ul className="small">
          {found.doubts.map((text) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      ) : null}
    </div>
  )
}
