import { showDay } from '@/app/ui/show-day'
import { TableFrame } from '@/app/ui/table-frame'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { findAnalyte } from '@/lib/domain/water/analytes'
import type { WaterSettings, WaterStanding } from '@/lib/domain/water/appraise'
import type { Series } from '@/lib/domain/water/series'
import { saySeries } from '@/lib/domain/water/series-words'
import { AnalyteChart } from './analyte-chart'
import { SampleLink } from './sample-link'

type Props = { wellId: string; water: WaterStanding; settings: WaterSettings; today: Day; units: UnitSystem }

/** A curve begins here; fewer results are told in a table. */
const CHART_NEEDS = 2

/** The substances over the years, those above a limit first: a picture, a sentence and a table each. */
export function History({ wellId, water, settings, today, units }: Props) {
  const above = new Set(
    water.findings.filter(({ verdict }) => verdict === 'exceeds').map(({ analyte }) => analyte),
  )
  const series = water.series
    .filter(({ analyte, points }) => findAnalyte(analyte)?.measure !== 'count' && points.length > 0)
    .sort((a, b) => Number(above.has(b.analyte)) - Number(above.has(a.analyte)))
  if (series.length === 0) return null
  const drawn = series.filter(
    ({ points }) => points.filter(({ value }) => value !== null).length >= CHART_NEEDS,
  )
  const told = series.filter((each) => !drawn.includes(each))
  return (
    <section className="stack" aria-labelledby="history">
      <h2 id="history">Over the years</h2>
      {drawn.map((each) => (
        <AnalyteChart key={each.analyte} series={each} {...{ wellId, settings, today, units }} />
      ))}
      {told.length > 0 ? <Told series={told} wellId={wellId} units={units} /> : null}
    </section>
  )
}

function Told({ series, wellId, units }: { series: readonly Series[]; wellId: string; units: UnitSystem }) {
  return (
    <details>
      <summary>{series.length} more with too few results for a picture</summary>
      <TableFrame label="Substances with too few results for a picture">
        <table className="table">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">Result</th>
              <th scope="col">Sample</th>
            </tr>
          </thead>
          <tbody>
            {series.map((each) => (
              <tr key={each.analyte}>
                <th scope="row">{each.name}</th>
                <td>{saySeries(each, (day) => showDay(day, units))}</td>
                <td>
                  <SampleLink wellId={wellId} sampleId={each.points.at(-1)?.sampleId ?? ''}>
                    {showDay(each.points.at(-1)?.on ?? '', units)}
                    <span className="unseen">: lab sheet with {each.name}</span>
                  </SampleLink>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </details>
  )
}
