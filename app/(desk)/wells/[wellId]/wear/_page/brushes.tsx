import { showDay } from '@/app/ui/show-day'
import type { BrushStanding } from '@/lib/domain/logbook/wear-standing'
import { sayForecast, sentence } from '@/lib/domain/logbook/wear-words'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { BrushChart } from './brush-chart'
import { CannotSay } from './cannot-say'
import { Warnings } from './warnings'

type Props = { brushes: BrushStanding; today: Day; units: UnitSystem }

/** The brushes in place: when the shortest is at its least length, and what their wear says to look at. */
export function Brushes({ brushes, today, units }: Props) {
  return (
    <section aria-labelledby="brushes" className="stack">
      <h2 id="brushes">Motor brushes</h2>
      {brushes.kind === 'cannot-say' ? (
        <>
          <CannotSay {...brushes} />
          <Lengths lengths={brushes.lengths} units={units} />
        </>
      ) : (
        <>
          <p className="text">
            {sayForecast(brushes.forecast, ['The shortest brush', leastLength(brushes, units)], today, units)}
          </p>
          <Warnings of={brushes.forecast} units={units} />
          {brushes.course.kind === 'course' ? (
            <BrushChart course={brushes.course} units={units} />
          ) : (
            <p className="muted">{sentence(brushes.course.why)}</p>
          )}
        </>
      )}
    </section>
  )
}

function leastLength({ course }: Extract<BrushStanding, { kind: 'known' }>, units: UnitSystem): string {
  return course.kind === 'course'
    ? `its least length of ${formatQuantity(course.minimumM, 'brush', units)}`
    : 'its least length'
}

/** Lengths that were read but cannot be reckoned with yet. */
function Lengths({
  lengths,
  units,
}: {
  lengths: Extract<BrushStanding, { kind: 'cannot-say' }>['lengths']
  units: UnitSystem
}) {
  if (lengths.length === 0) return null
  return (
    <details>
      <summary>
        {lengths.length} {lengths.length === 1 ? 'reading' : 'readings'} of brush length
      </summary>
      <ul>
        {[...lengths].reverse().map(({ on, lengthsM }) => (
          <li key={`${on} ${lengthsM.join(' ')}`}>
            {showDay(on, units)}: {lengthsM.map((m) => formatQuantity(m, 'brush', units)).join(', ')}
          </li>
        ))}
      </ul>
    </details>
  )
}
