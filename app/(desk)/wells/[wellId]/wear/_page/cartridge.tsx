import type { CartridgeStanding } from '@/lib/domain/logbook/wear-standing'
import { sayForecast, sayInterval, sentence } from '@/lib/domain/logbook/wear-words'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'
import { CannotSay } from './cannot-say'
import { CartridgeChart } from './cartridge-chart'
import { Warnings } from './warnings'

type Props = { cartridge: CartridgeStanding; today: Day; units: UnitSystem }

/** The cartridge in place: when it is done and why, and the interval that this well's own cartridges suggest. */
export function Cartridge({ cartridge, today, units }: Props) {
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
        </>
      )}
    </section>
  )
}
