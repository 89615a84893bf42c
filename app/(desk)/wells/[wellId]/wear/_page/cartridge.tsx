import type { CartridgeStanding } from '@/lib/domain/logbook/wear-standing'
import { intervalLimits, sayForecast, sayInterval, sentence } from '@/lib/domain/logbook/wear-words'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { CannotSay } from './cannot-say'
import { CartridgeChart } from './cartridge-chart'
import { Warnings } from './warnings'

type Props = {
  cartridge: CartridgeStanding
  today: Day
  units: UnitSystem
  /** How the interval is taken up; null for those who may not. */
  take: { action: (form: FormData) => Promise<void>; version: number } | null
}

/** The cartridge in place: when it is done and why, and the interval that this well's own cartridges suggest. */
export function Cartridge({ cartridge, today, units, take }: Props) {
  return (
    <section aria-labelledby="cartridge" className="stack">
      <h2 id="cartridge">Cartridge</h2>
      {cartridge.kind === 'cannot-say' ? (
        <CannotSay {...cartridge} />
      ) : (
        <>
          <p className="text">
            {sayForecast(
              cartridge.forecast,
              [
                'The cartridge',
                `its terminal drop of ${formatQuantity(cartridge.terminalPa, 'pressure', units)}`,
              ],
              today,
              units,
            )}
          </p>
          <Warnings of={cartridge.forecast} units={units} />
          {cartridge.course.kind === 'course' ? (
            <CartridgeChart
              course={cartridge.course}
              referenceFlowM3PerS={cartridge.referenceFlowM3PerS}
              units={units}
            />
          ) : (
            <p className="muted">{sentence(cartridge.course.why)}</p>
          )}
          <p className="text">{sayInterval(cartridge, units)}</p>
          <TakeInterval cartridge={cartridge} take={take} units={units} />
        </>
      )}
    </section>
  )
}

type Known = Extract<CartridgeStanding, { kind: 'known' }>

/** One button that sets the duty to what is offered, with what it will then be. */
function TakeInterval({ cartridge, take, units }: Pick<Props, 'take' | 'units'> & { cartridge: Known }) {
  if (!take || cartridge.interval.kind !== 'interval') return null
  const { everyMonths, everyM3 } = intervalLimits(cartridge.interval)
  const months = `${everyMonths} ${everyMonths === 1 ? 'month' : 'months'}`
  const volume = everyM3 === null ? '' : ` or ${formatQuantity(everyM3, 'tank', units)}`
  return (
    <form action={take.action} className="no-print">
      <input type="hidden" name="version" value={take.version} />
      <button className="button button-quiet" type="submit">
        Set “{cartridge.duty}” to {months}
        {volume}
      </button>
    </form>
  )
}
