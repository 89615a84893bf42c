import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import { LIFT_ASSUMED, type LiftStanding } from '@/lib/domain/logbook/lift-standing'
import { sayLift } from '@/lib/domain/logbook/wear-words'
import { formatQuantity, monthName, type UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { LiftChart } from './lift-chart'

type Props = { lift: LiftStanding; today: Day; units: UnitSystem }
type Year = Extract<LiftStanding, { kind: 'year' }>

/** How much suction lift is left, the tightest month first, and all that was assumed for it. */
export function Lift({ lift, today, units }: Props) {
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
          <LiftChart lift={lift} today={today} units={units} table={<Months lift={lift} units={units} />} />
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
  const show = (m: number | null) => (m === null ? 'no level read' : formatQuantity(m, 'margin', units))
  return (
    <table className="table">
      <thead>
        <tr>
          <th scope="col">Month</th>
          <th scope="col">Level at rest, the deep side</th>
          <th scope="col">Deepest that the pump lifts from</th>
          <th scope="col">Suction head at the pump (NPSH available)</th>
          <th scope="col">Lift left</th>
        </tr>
      </thead>
      <tbody>
        {lift.months.map(({ month, staticM, deepestStaticM, spareM, availableM }) => (
          <tr key={month}>
            <th scope="row">{monthName(month)}</th>
            <td>{show(staticM)}</td>
            <td>{show(deepestStaticM)}</td>
            <td>{availableM === null ? 'cannot say' : show(availableM)}</td>
            <td>{spareM === null ? 'cannot say' : show(spareM)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** What a deep low takes from the air's push, m of water. */
const LOW_M = 0.5

const TAKEN = ' (common practice, no published source; enter it on the well’s form)'

function assumptions(lift: Year, units: UnitSystem): string[] {
  const { flow, drawdownM, line, cartridge, friction, requiredM, assumed } = lift
  const { temperatureC, marginM } = LIFT_ASSUMED
  const [pipe] = line.pipes
  const length = pipe ? formatQuantity(pipe.lengthM, 'margin', units) : 'no'
  const bore = pipe ? formatQuantity(pipe.insideM, 'bore', units) : 'no'
  const dropWords = {
    'none read': 'No drop across a cartridge is counted: none was ever read.',
    'behind the pump':
      'No drop across the cartridge is counted: the gauge before it shows pressure, so it stands behind the pump.',
    'before the pump': `The cartridge stands before the pump, and its last drop of ${formatQuantity(cartridge.dropPa, 'pressure', units)} is counted.`,
  }
  const from = (taken: boolean) => (taken ? TAKEN : ' (of the register)')
  return [
    `The flow last read, ${formatQuantity(flow.m3PerS, 'flow', units)} on ${showDay(flow.on, units)}, and the drawdown of ${formatQuantity(drawdownM, 'margin', units)} that the well's capacity makes of it.`,
    `The pump asks for ${formatQuantity(requiredM - marginM, 'margin', units)} of suction head${assumed.required ? ' (common practice, no published source; the pump’s own sheet wins: enter it with its model)' : ' (NPSH required by its model)'}, and ${formatQuantity(marginM, 'margin', units)} are kept on top (common practice, no published source).`,
    `A suction pipe of ${bore} inside${from(assumed.bore)}, ${length} long${from(assumed.length)}, of ${assumed.material ? 'plastic, as nothing else is known' : 'what the register says'}, with fittings that count ${Number(line.kSum.toFixed(2))} velocity heads${from(assumed.fittings)}.`,
    `Friction of the pipe ${formatQuantity(friction.darcyM, 'lift', units)} by Darcy–Weisbach, which is counted, and ${formatQuantity(friction.hazenWilliamsM, 'lift', units)} by Hazen–Williams as the check${friction.apart ? ': the two are apart by more than a quarter, so look at bore, pipe and flow again' : ''}; fittings take ${formatQuantity(friction.headM - friction.darcyM, 'lift', units)}.`,
    `Water at ${formatQuantity(temperatureC + 273.15, 'temperature', units)} all the year, on the warm side (common practice, no published source).`,
    dropWords[cartridge.says],
    `The usual pressure of the air at this altitude. A deep low takes up to about ${formatQuantity(LOW_M, 'margin', units)} of water from it for a day or two (common practice, no published source).`,
  ]
}
