import type { ChartPoint } from '@/app/ui/charts/shapes'
import { UseChart } from '@/app/ui/charts/use-chart'
import { showDay } from '@/app/ui/show-day'
import type { CartridgeCourse } from '@/lib/domain/pump'
import { displayUnit, formatQuantity, fromSi, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'

type Course = Extract<CartridgeCourse, { kind: 'course' }>
type Props = { course: Course; referenceFlowM3PerS: number | null; units: UnitSystem }

/** Past so many times the terminal drop nothing is drawn: it would press the rest flat. */
const IN_SIGHT = 2.5

/** Drops carried to one flow, against what went through since the change, with the course expected and the end of it. */
export function CartridgeChart({ course, referenceFlowM3PerS, units }: Props) {
  const { by, points, earlier, curve, terminalPa, changedOn } = course
  const pressure = displayUnit('pressure', units)
  const volume = displayUnit('tank', units)
  const used = (use: number) => (by === 'volume' ? fromSi(use, volume) : use)
  const drop = (pa: number) => fromSi(pa, pressure)
  const end = formatQuantity(terminalPa, 'pressure', units)
  const reach = Math.max(...curve.map((at) => at.used))
  const point = (at: Course['points'][number], id: string): ChartPoint<number> => ({
    id,
    on: used(at.used),
    value: drop(at.atReferencePa),
    used: !at.leftOut,
  })
  const inSight = (pa: number) => Math.min(pa, IN_SIGHT * terminalPa)
  const flow =
    referenceFlowM3PerS === null
      ? 'as read, as no flow was read with them'
      : `carried to ${formatQuantity(referenceFlowM3PerS, 'flow', units)}`
  return (
    <UseChart
      title="Pressure drop of the cartridge"
      says={`${points.length} ${points.length === 1 ? 'reading' : 'readings'} since ${changedOn === null ? 'the first one' : showDay(changedOn, units)}, ${flow}, with the course that they leave open up to the terminal drop of ${end}.`}
      unit={unitSymbol(pressure)}
      along={by === 'volume' ? `${unitSymbol(volume)} since the change` : 'days since the change'}
      series={[
        { name: 'this cartridge', mark: 'disc', stretches: [points.map((at) => point(at, at.on))] },
        {
          name: `earlier cartridges of this well, drops up to ${formatQuantity(IN_SIGHT * terminalPa, 'pressure', units)}`,
          mark: 'diamond',
          stretches: earlier.map((run) =>
            run.points
              .filter((at) => at.used <= reach && at.atReferencePa <= IN_SIGHT * terminalPa)
              .map((at) => point(at, `${run.changedOn} ${at.on}`)),
          ),
        },
      ]}
      bands={[
        {
          name: 'course expected, 80 % interval',
          points: curve.map(({ used: use, lowPa, highPa }) => ({
            on: used(use),
            low: drop(inSight(lowPa)),
            high: drop(inSight(highPa)),
          })),
        },
      ]}
      limits={[{ name: `terminal drop, ${end}`, short: 'terminal drop', value: drop(terminalPa) }]}
      table={<CourseTable course={course} units={units} />}
    />
  )
}

function CourseTable({ course: { by, points }, units }: { course: Course; units: UnitSystem }) {
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">Day</th>
          <th scope="col">Since the change</th>
          <th scope="col">Drop as read</th>
          <th scope="col">At one flow</th>
          <th scope="col">Remark</th>
        </tr>
      </thead>
      <tbody>
        {[...points].reverse().map((at) => (
          <tr key={`${at.on} ${at.used} ${at.readPa}`}>
            <td>{showDay(at.on, units)}</td>
            <td>
              {by === 'volume' ? formatQuantity(at.used, 'tank', units) : `${Math.round(at.used)} days`}
            </td>
            <td>{formatQuantity(at.readPa, 'pressure', units)}</td>
            <td>{formatQuantity(at.atReferencePa, 'pressure', units)}</td>
            <td>{at.leftOut ? 'left out as a slip' : ''}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
