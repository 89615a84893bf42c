import { Status } from '@/app/ui/status'
import type { PickLine } from '@/lib/records/stock'
import { partName } from '../../stock/_page/words'

/** The parts to load for the duties of a sheet, with what the shelf has of them. */
export function PickListSection({ lines }: { lines: readonly PickLine[] }) {
  if (lines.length === 0) return null
  return (
    <section className="sheet" aria-labelledby="parts">
      <h2 id="parts">Parts to load</h2>
      <ul className="plain-list stack-tight">
        {lines.map((line) => (
          <li key={`${line.part} ${line.model} ${line.use}`} className="sheet-item">
            <span className="tick" aria-hidden="true" />
            <span>
              <strong>
                {line.count} × {partName(line.part, line.model)}
              </strong>{' '}
              {line.use === 'in case' ? 'in case one is found worn' : ''}{' '}
              <span className="muted">(for {line.wells.map(({ label }) => label).join(', ')})</span>{' '}
              <Shelf line={line} />
            </span>
          </li>
        ))}
      </ul>
      <p className="muted text">
        Sizes are those of the parts fitted last at each well: look before you drive.
      </p>
    </section>
  )
}

function Shelf({ line: { onShelf, short } }: { line: PickLine }) {
  if (onShelf === null) return <Status tone="unsure">shelf never counted</Status>
  if (short !== null && short > 0)
    return (
      <Status tone="alarm">
        {short} short: {Math.max(0, onShelf)} on the shelf
      </Status>
    )
  return <Status tone="calm">{onShelf} on the shelf</Status>
}
