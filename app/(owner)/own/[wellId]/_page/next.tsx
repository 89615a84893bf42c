import { today } from '@/lib/clock'
import type { OwnWell } from '@/lib/records/own-well'

const SHOWN = 6

/** What is to be done at the well, soonest first. */
export function Next({ well, show }: { well: OwnWell; show: (day: string) => string }) {
  const due = (well.standing?.duties ?? [])
    .flatMap(({ id, name, due: on }) => (on === null ? [] : [{ id, name, on }]))
    .sort((a, b) => (a.on < b.on ? -1 : 1))
    .slice(0, SHOWN)
  return (
    <section className="sheet stack" aria-labelledby="next">
      <h3 id="next">What is next</h3>
      {due.length === 0 ? <p>Nothing is planned yet.</p> : null}
      <ul className="plain-list">
        {due.map(({ id, name, on }) => (
          <li key={id}>
            {name}: {on < today() ? `was due on ${show(on)}` : `by ${show(on)}`}
          </li>
        ))}
      </ul>
    </section>
  )
}
