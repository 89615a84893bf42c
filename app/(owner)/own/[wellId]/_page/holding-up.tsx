import { showDay } from '@/app/ui/show-day'
import { TableFrame } from '@/app/ui/table-frame'
import { today } from '@/lib/clock'
import { sayYieldToOwner } from '@/lib/domain/logbook/owner-words'
import { levelsByYear, sayYears, type YearOfLevels } from '@/lib/domain/logbook/owner-years'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { OwnWell } from '@/lib/records/own-well'

/** More years than that are for the outfit to read. */
const YEARS = 8

/** How the well holds up, and this year against other years: a sentence, a picture and the numbers in one table. */
export function HoldingUp({ well, units }: { well: OwnWell; units: UnitSystem }) {
  const show = (day: string) => showDay(day, units)
  const depth = (m: number) => formatQuantity(m, 'depth', units)
  const years = levelsByYear(well.levels).slice(0, YEARS)
  return (
    <section className="sheet stack" aria-labelledby="holding-up">
      <h3 id="holding-up">How it is holding up</h3>
      <p className="text">
        {well.standing ? sayYieldToOwner(well.standing.yield, show) : 'Nothing is known yet.'}
      </p>
      <p className="text">{sayYears(well.levels, today(), depth, show)}</p>
      {well.tank ? (
        <p className="text">
          Tank on {show(well.tank.on)}: {well.tank.words}.
        </p>
      ) : null}
      {years.length < 2 ? null : <Years years={years} depth={depth} />}
    </section>
  )
}

function Years({ years, depth }: { years: readonly YearOfLevels[]; depth: (m: number) => string }) {
  const deepest = Math.max(...years.map((year) => year.deepestM))
  const highest = Math.min(...years.map((year) => year.shallowestM))
  return (
    <TableFrame label="How deep the water stood, year by year">
      <table className="table">
        <caption>
          How deep the water stood below the mark, pump off.
          <span className="no-print"> The bar goes from highest to lowest.</span>
        </caption>
        <thead>
          <tr>
            <th scope="col">Year</th>
            <th scope="col">Highest</th>
            <th scope="col">Lowest</th>
            <th scope="col">Readings</th>
          </tr>
        </thead>
        <tbody>
          {years.map((year) => (
            <tr key={year.year}>
              <th scope="row">
                <span className="year">
                  {year.year}
                  <Bar year={year} from={highest} to={deepest} />
                </span>
              </th>
              <td>{depth(year.shallowestM)}</td>
              <td>{depth(year.deepestM)}</td>
              <td>{year.readings}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}

const WIDTH = 72

/** One year as a bar on the scale of all years; a single reading is a short one. */
function Bar({ year, from, to }: { year: YearOfLevels; from: number; to: number }) {
  const scale = to === from ? 0 : WIDTH / (to - from)
  const x = (year.shallowestM - from) * scale
  const width = Math.max((year.deepestM - year.shallowestM) * scale, 3)
  return (
    <svg className="year-bar no-print" viewBox={`0 0 ${WIDTH + 3} 14`} aria-hidden="true" focusable="false">
      <path className="year-line" d={`M0 7h${WIDTH + 3}`} />
      <rect x={x} y="2" width={width} height="10" />
    </svg>
  )
}
