import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import { TableFrame } from '@/app/ui/table-frame'
import { REMEDY_WORDS, sayRoughly } from '@/lib/domain/logbook/supply-words'
import { type BetterState, type Remedy, remedies, type SupplyPlan } from '@/lib/domain/pump/supply'
import type { UnitSystem } from '@/lib/domain/quantity'

type Props = { plan: SupplyPlan; better: BetterState; short: boolean; units: UnitSystem }

/** What would mend a year with short days, each thing by itself. */
export function Mending({ plan, better, short, units }: Props) {
  if (!short) return null
  // A stop for worn brushes is told below, against a year without one.
  const found = remedies(plan, better).filter(({ kind }) => kind !== 'earlier-brush-service')
  return (
    <section aria-labelledby="mend" className="stack-tight">
      <h2 id="mend">What would mend it</h2>
      <p className="muted text">Each by itself, in a year simulated anew.</p>
      <TableFrame label="What would mend it">
        <table className="table table-cards">
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col">Does it help</th>
              <th scope="col">Then</th>
            </tr>
          </thead>
          <tbody>
            {found.map((remedy) => (
              <tr key={remedy.kind}>
                <th scope="row">{REMEDY_WORDS[remedy.kind]}</th>
                <td data-label="Does it help">
                  <Status tone={TONES[remedy.verdict]}>{WORDS[remedy.verdict]}</Status>
                </td>
                <td data-label="Then">{then(remedy, units)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </section>
  )
}

const TONES: Record<Remedy['verdict'], Tone> = {
  'ends it': 'calm',
  helps: 'note',
  'does not help': 'watch',
  'cannot say': 'unsure',
}
const WORDS: Record<Remedy['verdict'], string> = {
  'ends it': 'Ends it',
  helps: 'Helps',
  'does not help': 'Hardly helps',
  'cannot say': 'Cannot say',
}

function then(remedy: Remedy, units: UnitSystem): string {
  if (remedy.verdict === 'cannot say') return remedy.why
  if (remedy.tankM3 !== undefined) {
    return `About ${sayRoughly(remedy.tankM3, units, 'up')} that can be used leave no day short.`
  }
  if (remedy.firstShortDay === null) return 'No day is short.'
  const size = remedy.kind === 'bigger-tank' ? 'However big, ' : ''
  const days = `${remedy.shortDays} short ${remedy.shortDays === 1 ? 'day' : 'days'}`
  const rest = `${days} from ${showDay(remedy.firstShortDay, units)}, ${sayRoughly(remedy.missingM3, units)} missing.`
  return size ? `${size}${rest}` : rest
}
