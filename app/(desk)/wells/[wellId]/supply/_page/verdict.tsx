import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { sayLasting, sayRoughly, supplyTone } from '@/lib/domain/logbook/supply-words'
import { type SupplyPlan, type SupplyResult, saySupply } from '@/lib/domain/pump/supply'
import { daysShown, formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'

const sayRange = (least: string, most: string): string =>
  least === most ? `${least}, all the year` : `${least} to ${most}, by the month`

type Props = {
  plan: SupplyPlan
  result: SupplyResult
  today: Day
  units: UnitSystem
  /** What is otherwise than it is, in words; null for the year as it is. */
  whatIf: string | null
  /** Only the sentence: it stands beside the one that something was changed in. */
  short?: boolean
}

/** The year in one word, one sentence and its few figures. */
export function Verdict({ plan, result, today, units, whatIf, short }: Props) {
  const { tone, word } = supplyTone(result, today)
  const id = short ? 'as-is' : 'lasts'
  const title = whatIf ? 'What if' : short ? 'As it is' : 'How long the water lasts'
  return (
    <section aria-labelledby={id} className="stack-tight">
      <h2 id={id}>{title}</h2>
      <p>
        <Status tone={tone}>{word}</Status>
      </p>
      {whatIf ? <p className="text">With {whatIf}, and all else as it is.</p> : null}
      <p className="text">{daysShown(saySupply(result, plan), units)}</p>
      {short ? null : <Figures plan={plan} result={result} units={units} />}
    </section>
  )
}

function Figures({ plan, result, units }: Pick<Props, 'plan' | 'result' | 'units'>) {
  const { firstShortDay, shortDays, shortHours, missingM3, leastReserve, fullTankDays } = result
  const full = fullTankDays.filter((days) => days !== null)
  return (
    <dl className="facts">
      <div>
        <dt>First short day</dt>
        <dd>{firstShortDay === null ? 'none in this year' : showDay(firstShortDay, units)}</dd>
      </div>
      <div>
        <dt>Short in the year</dt>
        <dd>
          {shortDays === 0
            ? 'never'
            : `on ${shortDays} ${shortDays === 1 ? 'day' : 'days'}, ${shortHours} ${shortHours === 1 ? 'hour' : 'hours'} in all; ${sayRoughly(missingM3, units)} missing`}
        </dd>
      </div>
      <div>
        <dt>A full tank lasts, with nothing coming in</dt>
        <dd>
          {full.length === 0
            ? 'nothing is asked of it'
            : sayRange(sayLasting(Math.min(...full)), sayLasting(Math.max(...full)))}
        </dd>
      </div>
      <div>
        <dt>Reserve on the tightest day</dt>
        <dd>
          {leastReserve === null
            ? 'not reached in this year'
            : `${sayLasting(leastReserve.days)}, on ${showDay(leastReserve.on, units)}`}
        </dd>
      </div>
      <div>
        <dt>Tank</dt>
        <dd>{formatQuantity(plan.tankM3, 'tank', units)}</dd>
      </div>
    </dl>
  )
}
