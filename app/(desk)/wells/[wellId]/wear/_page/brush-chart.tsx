import type { MarkShape } from '@/app/ui/charts/shapes'
import { UseChart } from '@/app/ui/charts/use-chart'
import { showDay } from '@/app/ui/show-day'
import type { BrushCourse } from '@/lib/domain/pump'
import {
  displayUnit,
  formatNumber,
  formatQuantity,
  fromSi,
  type UnitSystem,
  unitSymbol,
} from '@/lib/domain/quantity'

type Course = Extract<BrushCourse, { kind: 'course' }>

const MARKS: readonly MarkShape[] = ['disc', 'diamond', 'square', 'triangle']
/** As many points as a straight band between two ends needs to be drawn down to nothing. */
const BAND_POINTS = 12

/** Each brush's length against run hours of this set, with the wear expected of the shortest down to the least length. */
export function BrushChart({ course, units }: { course: Course; units: UnitSystem }) {
  const { by, points, newM, minimumM, lifeLow, lifeUse, lifeHigh, putInOn } = course
  const unit = displayUnit('brush', units)
  const to = (m: number) => fromSi(m, unit)
  const show = (m: number) => formatQuantity(m, 'brush', units)
  const counted = by === 'hours' ? 'run hours' : 'days'
  const brushes = Math.max(0, ...points.map(({ lengthsM }) => lengthsM.length))
  const reach = Math.max(lifeUse, ...points.map(({ used }) => used)) * 1.1
  const at = (use: number, life: number) => Math.max(0, newM - ((newM - minimumM) * use) / life)
  return (
    <UseChart
      title="Length of the brushes"
      says={`${points.length} ${points.length === 1 ? 'reading' : 'readings'} of the set put in on ${showDay(putInOn, units)}; new ${show(newM)}, least ${show(minimumM)}. ${sayShortest(course, units)}`}
      unit={unitSymbol(unit)}
      along={`${counted} since the set was put in`}
      series={Array.from({ length: brushes }, (_, brush) => ({
        name: `brush ${brush + 1}`,
        mark: MARKS[brush % MARKS.length] ?? 'disc',
        stretches: [
          points.flatMap(({ on, used, lengthsM }) => {
            const lengthM = lengthsM[brush]
            return lengthM === undefined
              ? []
              : [{ id: `${on} ${brush}`, on: used, value: to(lengthM), used: true }]
          }),
        ],
      }))}
      bands={
        isPast(course)
          ? []
          : [
              {
                name: 'wear expected of the shortest, 80 % interval',
                points: Array.from({ length: BAND_POINTS + 1 }, (_, i) => {
                  const use = (reach * i) / BAND_POINTS
                  return { on: use, low: to(at(use, lifeLow)), high: to(at(use, lifeHigh)) }
                }),
              },
            ]
      }
      limits={[{ name: `least length, ${show(minimumM)}`, short: 'least length', value: to(minimumM) }]}
      table={<LengthTable course={course} brushes={brushes} units={units} />}
    />
  )
}

/** Whether the shortest was read at its least length or below: nothing is left to expect. */
function isPast({ points, minimumM }: Pick<Course, 'points' | 'minimumM'>): boolean {
  const lengths = points.at(-1)?.lengthsM ?? []
  return lengths.length > 0 && Math.min(...lengths) <= minimumM
}

/** When the shortest is expected at its least length, or that it was read to be there already. */
function sayShortest(
  { by, points, minimumM, lifeLow, lifeUse, lifeHigh }: Course,
  units: UnitSystem,
): string {
  const last = points.at(-1)
  if (last && isPast({ points, minimumM })) {
    return `The shortest was read at ${formatQuantity(Math.min(...last.lengthsM), 'brush', units)} on ${showDay(last.on, units)}: it is past that.`
  }
  const use = (value: number) => formatNumber(value, 0, 0)
  return `The shortest is expected there at about ${use(lifeUse)} ${by === 'hours' ? 'run hours' : 'days'} of this set, 8 times in 10 between ${use(lifeLow)} and ${use(lifeHigh)}.`
}

function LengthTable({
  course: { by, points },
  brushes,
  units,
}: {
  course: Course
  brushes: number
  units: UnitSystem
}) {
  const numbers = Array.from({ length: brushes }, (_, i) => i + 1)
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">Day</th>
          <th scope="col">{by === 'hours' ? 'Run hours of the set' : 'Days of the set'}</th>
          {numbers.map((brush) => (
            <th key={brush} scope="col">
              Brush {brush}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {[...points].reverse().map(({ on, used, lengthsM }) => (
          <tr key={`${on} ${used}`}>
            <td>{showDay(on, units)}</td>
            <td>{formatNumber(used, 0, 0)}</td>
            {numbers.map((brush) => {
              const lengthM = lengthsM[brush - 1]
              return (
                <td key={brush}>
                  {lengthM === undefined ? 'not read' : formatQuantity(lengthM, 'brush', units)}
                </td>
              )
            })}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
