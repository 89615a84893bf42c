import type { ChartLimit, ChartPoint } from '@/app/ui/charts/shapes'
import { TimeChart } from '@/app/ui/charts/time-chart'
import { showDay } from '@/app/ui/show-day'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import type { WaterSettings } from '@/lib/domain/water/appraise'
import { type AppliedLimit, limitsOn } from '@/lib/domain/water/schemes'
import type { Series } from '@/lib/domain/water/series'
import { sayPoint, saySeries } from '@/lib/domain/water/series-words'
import { SampleLink } from './sample-link'

type Props = { series: Series; wellId: string; settings: WaterSettings; today: Day; units: UnitSystem }

/** A limit more than so many times above everything found is told in words: drawn, it would press the results flat. */
const DRAWN_WITHIN = 20

/** One substance over time with its limits; results below a reporting limit are drawn as "less than" marks at it. */
export function AnalyteChart({ series, wellId, settings, today, units }: Props) {
  const { name, unit, points, analyte } = series
  const drawn: ChartPoint[] = points.flatMap(({ sampleId, on, value, reads }) =>
    value === null
      ? []
      : [
          {
            id: sampleId,
            on,
            value,
            used: true,
            ...(reads === 'below' || reads === 'above' ? { bound: reads } : {}),
          },
        ],
  )
  const highest = Math.max(...drawn.map(({ value }) => value))
  const limits = limitsOn(settings.scheme, analyte, today, settings.local).flatMap((limit) =>
    linesOf(limit, unit),
  )
  const near = limits.filter(({ value }) => value <= highest * DRAWN_WITHIN)
  const far = limits.filter((limit) => !near.includes(limit))
  const farWords =
    far.length > 0 ? ` Not drawn, far above: ${far.map((limit) => limit.name).join('; ')}.` : ''
  return (
    <TimeChart
      title={name}
      says={`${saySeries(series, (day) => showDay(day, units))}${farWords}`}
      unit={unit}
      series={[{ name, mark: 'disc', stretches: [drawn] }]}
      limits={near}
      table={<ResultTable series={series} wellId={wellId} units={units} />}
    />
  )
}

const KIND_WORDS = {
  health: 'health limit',
  action: 'action level',
  advisory: 'advisory',
  aesthetic: 'level for taste or look',
}

function linesOf({ row, maxHome, minHome }: AppliedLimit, unit: string): ChartLimit[] {
  const line = (value: number, what: string): ChartLimit => ({
    name: `${what} ${figure(value)} ${unit} (${row.source})`.replace(/ +/g, ' '),
    short: `${what} ${figure(value)}`,
    value,
  })
  const what = KIND_WORDS[row.kind]
  return minHome === null
    ? [line(maxHome, what)]
    : [line(minHome, `lower ${what}`), line(maxHome, `upper ${what}`)]
}

const figure = (value: number): string => String(Number(value.toPrecision(3)))

function ResultTable({ series, wellId, units }: Pick<Props, 'series' | 'wellId' | 'units'>) {
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">Day</th>
          <th scope="col">Result</th>
          <th scope="col">As on the sheet</th>
        </tr>
      </thead>
      <tbody>
        {[...series.points].reverse().map((point) => (
          <tr key={`${point.sampleId} ${point.typed}`}>
            <td>
              <SampleLink wellId={wellId} sampleId={point.sampleId}>
                {showDay(point.on, units)}
                <span className="unseen">: lab sheet with {series.name}</span>
              </SampleLink>
            </td>
            <td>{sayPoint(point, series.unit)}</td>
            <td>{point.typed}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
