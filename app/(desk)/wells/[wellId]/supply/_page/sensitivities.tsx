import { TableFrame } from '@/app/ui/table-frame'
import { INPUT_WORDS, sayRoughly } from '@/lib/domain/logbook/supply-words'
import { type Sensitivity, type SupplyPlan, sensitivity } from '@/lib/domain/pump/supply'
import type { UnitSystem } from '@/lib/domain/quantity'

/** How the year turns with each number that is only roughly known. */
export function Sensitivities({ plan, units }: { plan: SupplyPlan; units: UnitSystem }) {
  const found = sensitivity(plan)
  const say = ({ shortDays, missingM3 }: Sensitivity['smaller']) =>
    shortDays === 0
      ? 'never short'
      : `${shortDays} short ${shortDays === 1 ? 'day' : 'days'}, ${sayRoughly(missingM3, units)} missing`
  return (
    <section aria-labelledby="turns" className="stack-tight">
      <h2 id="turns">How sure this is</h2>
      <p className="text">
        Each number by itself a fifth smaller and a fifth larger, the one that matters most first: if the year
        turns on it, measure that one.
      </p>
      <TableFrame label="The year with each number a fifth smaller and larger">
        <table className="table table-cards">
          <thead>
            <tr>
              <th scope="col">Number</th>
              <th scope="col">A fifth smaller</th>
              <th scope="col">A fifth larger</th>
            </tr>
          </thead>
          <tbody>
            {found.map(({ input, smaller, larger }) => (
              <tr key={input}>
                <th scope="row">{INPUT_WORDS[input]}</th>
                <td data-label="A fifth smaller">{say(smaller)}</td>
                <td data-label="A fifth larger">{say(larger)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </section>
  )
}
