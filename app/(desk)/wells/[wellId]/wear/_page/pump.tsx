import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { TableFrame } from '@/app/ui/table-frame'
import { warrantySaid } from '@/lib/domain/logbook/part-words'
import type { PumpSide, PumpStanding } from '@/lib/domain/logbook/pump-standing'
import { sentence } from '@/lib/domain/logbook/wear-words'
import type { YieldSummary } from '@/lib/domain/logbook/yield-summary'
import { CAUSE_WORDS } from '@/lib/domain/logbook/yield-words'
import { drawnW, type PumpFacts, type RegisterPart } from '@/lib/domain/pump'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { paths } from '@/lib/paths'
import { EvidenceWords } from './evidence-words'
import { SharesChart } from './shares-chart'

type Props = {
  pump: PumpStanding
  /** The pump in the register of parts, where one is in place. */
  part: RegisterPart | undefined
  today: Day
  model: PumpFacts | null
  yields: YieldSummary
  wellId: string
  units: UnitSystem
}

/** The pump at first and now, and what that says to "pump or well?". */
export function Pump({ pump, part, model, yields, wellId, today, units }: Props) {
  const { reference, now, lacking } = pump
  return (
    <section aria-labelledby="pump" className="stack">
      <h2 id="pump">Pump</h2>
      {model ? <p className="text">{model.name}</p> : null}
      {part ? (
        <p className="text">
          {part.fittedOn ? `In place since ${showDay(part.fittedOn, units)}; ` : ''}warranty{' '}
          {warrantySaid(part.warrantyUntil, today, (day) => showDay(day, units))}.
        </p>
      ) : null}
      {reference ? <PumpTable reference={reference} now={now} units={units} /> : null}
      {lacking.length > 0 ? (
        <p className="text">To hold the pump against itself, this is lacking: {lacking.join(', ')}.</p>
      ) : null}
      <h3>Pump or well?</h3>
      <EvidenceWords pump={pump} units={units} />
      <SharesChart pump={pump} units={units} />
      <p className="text">
        The readings of the whole well say: <strong>{CAUSE_WORDS[yields.cause]}</strong>.{' '}
        <Link href={paths.wellYield(wellId)} prefetch={false}>
          The evidence of the well
        </Link>
      </p>
      {reference ? (
        <p className="muted text">
          {sentence(
            'head is the level while pumping, the lift to the pump and the pressure before the cartridge; friction in the pipe before that gauge is left out, so that the true share of power is a little higher',
          )}{' '}
          It is held against{' '}
          {pump.referenceFrom === 'register'
            ? 'what the register says that it gave when it was new.'
            : 'the first full reading since it was put in; what it gave when new can be entered on the well’s form.'}
        </p>
      ) : null}
    </section>
  )
}

const read = (value: number | null, show: (value: number) => string): string =>
  value === null ? 'not read' : show(value)

type RowOf = { what: string; show: (side: PumpSide) => string }

function PumpTable({
  reference,
  now,
  units,
}: {
  reference: PumpSide
  now: PumpSide | null
  units: UnitSystem
}) {
  const rows: RowOf[] = [
    { what: 'Flow', show: (side) => formatQuantity(side.flowM3PerS, 'flow', units) },
    { what: 'Head', show: (side) => formatQuantity(side.headM, 'pumpHead', units) },
    { what: 'Current', show: ({ amps }) => read(amps, (a) => formatQuantity(a, 'current', units)) },
    { what: 'Voltage', show: (side) => formatQuantity(side.volts, 'voltage', units) },
    { what: 'Power drawn', show: (side) => read(drawnW(side), (w) => formatQuantity(w, 'power', units)) },
    {
      what: 'Power that reaches the water',
      show: ({ efficiency }) =>
        efficiency.kind === 'efficiency'
          ? formatQuantity(Math.round(efficiency.share * 100) / 100, 'share', units)
          : `cannot say: ${efficiency.message}`,
    },
  ]
  return (
    <TableFrame label="The pump at first and now">
      <table className="table table-cards">
        <caption className="unseen">The pump at first and now</caption>
        <thead>
          <tr>
            <th scope="col">Read together</th>
            <th scope="col">First, {showDay(reference.on, units)}</th>
            <th scope="col">{now ? `Now, ${showDay(now.on, units)}` : 'Now'}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ what, show }) => (
            <tr key={what}>
              <th scope="row">{what}</th>
              <td data-label={`First, ${showDay(reference.on, units)}`}>{show(reference)}</td>
              <td data-label={now ? `Now, ${showDay(now.on, units)}` : 'Now'}>
                {now ? show(now) : 'not read again'}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}
