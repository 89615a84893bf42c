import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import { TableFrame } from '@/app/ui/table-frame'
import { LIFT_ASSUMED, type LiftStanding } from '@/lib/domain/logbook/lift-standing'
import { monthName, sayLift } from '@/lib/domain/logbook/wear-words'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'

type Props = { lift: LiftStanding; units: UnitSystem }
type Year = Extract<LiftStanding, { kind: 'year' }>

/** How much suction lift is left, the tightest month first, and all that was assumed for it. */
export function Lift({ lift, units }: Props) {
  const { tone, word } = wordOf(lift)
  return (
    <section aria-labelledby="lift" className="stack-tight">
      <h2 id="lift">Suction lift</h2>
      <p>
        <Status tone={tone}>{word}</Status>
      </p>
      <p className="text">{sayLift(lift, units)}</p>
      {lift.kind === 'year' ? (
        <>
          <Months lift={lift} units={units} />
          <h3>What this takes for granted</h3>
          <ul>
            {assumptions(lift, units).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </>
      ) : null}
      <p className="muted text">
        This is about a pump that stands on the ground or in a pit and sucks. A pump that hangs in the water
        has no suction lift to lose.
      </p>
    </section>
  )
}

function wordOf(lift: LiftStanding): { tone: Tone; word: string } {
  if (lift.kind === 'cannot-say') return { tone: 'unsure', word: 'Cannot say' }
  if (lift.tightest.spareM < 0) return { tone: 'alarm', word: 'Runs out' }
  return lift.tightest.spareM < 1
    ? { tone: 'watch', word: 'Little left' }
    : { tone: 'note', word: 'Left in every month that is known' }
}

function Months({ lift, units }: { lift: Year; units: UnitSystem }) {
  const show = (m: number | null) => (m === null ? 'no level read' : formatQuantity(m, 'lift', units))
  return (
    <details>
      <summary>Every month</summary>
      <TableFrame label="Suction lift left in each month">
        <table className="table">
          <thead>
            <tr>
              <th scope="col">Month</th>
              <th scope="col">Level at rest, the deep side</th>
              <th scope="col">Deepest that the pump lifts from</th>
              <th scope="col">Left</th>
            </tr>
          </thead>
          <tbody>
            {lift.months.map(({ month, staticM, deepestStaticM, spareM }) => (
              <tr key={month}>
                <th scope="row">{monthName(month)}</th>
                <td>{show(staticM)}</td>
                <td>{show(deepestStaticM)}</td>
                <td>{spareM === null ? 'cannot say' : show(spareM)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </details>
  )
}

/** Within what the pump asks for, m. */
const MARGIN_M = 0.5
/** What a deep low takes from the air's push, m of water. */
const LOW_M = 0.5

function assumptions({ flow, drawdownM, line, cartridge }: Year, units: UnitSystem): string[] {
  const { requiredM, temperatureC, insideM, kSum } = LIFT_ASSUMED
  const [pipe] = line.pipes
  const length = pipe ? formatQuantity(pipe.lengthM, 'distance', units) : 'no'
  const dropWords = {
    'none read': 'No drop across a cartridge is counted: none was ever read.',
    'behind the pump':
      'No drop across the cartridge is counted: the gauge before it shows pressure, so it stands behind the pump.',
    'before the pump': `The cartridge stands before the pump, and its last drop of ${formatQuantity(cartridge.dropPa, 'pressure', units)} is counted.`,
  }
  return [
    `The flow last read, ${formatQuantity(flow.m3PerS, 'flow', units)} on ${showDay(flow.on, units)}, and the drawdown of ${formatQuantity(drawdownM, 'drawdown', units)} that the well's capacity makes of it.`,
    `The pump asks for ${formatQuantity(requiredM, 'lift', units)} of suction head, a margin of ${formatQuantity(MARGIN_M, 'lift', units)} within (common practice, no published source): the pump's own sheet wins.`,
    `A suction pipe of ${formatQuantity(insideM, 'bore', units)} inside, ${length} long, with fittings that count ${kSum} velocity heads (common practice, no published source).`,
    `Water at ${formatQuantity(temperatureC + 273.15, 'temperature', units)} all the year, on the warm side (common practice, no published source).`,
    dropWords[cartridge.says],
    `The usual pressure of the air at this altitude. A deep low takes up to about ${formatQuantity(LOW_M, 'lift', units)} of water from it for a day or two (common practice, no published source).`,
  ]
}
