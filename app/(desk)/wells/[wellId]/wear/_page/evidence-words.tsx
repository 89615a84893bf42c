import { Status, type Tone } from '@/app/ui/status'
import type { PumpStanding } from '@/lib/domain/logbook/pump-standing'
import { daysShown, sentence } from '@/lib/domain/logbook/wear-words'
import type { PumpEvidence, PumpType } from '@/lib/domain/pump'
import type { UnitSystem } from '@/lib/domain/quantity'

const IF_IT_IS: Record<PumpType, string> = {
  centrifugal: 'If it is a centrifugal or jet pump',
  displacement: 'If it is a diaphragm or piston pump',
}

/** What the pump's readings say, once where both kinds of pump come to the same, else for each. */
export function EvidenceWords({
  evidence: { centrifugal, displacement },
  units,
}: {
  evidence: PumpStanding['evidence']
  units: UnitSystem
}) {
  const same = centrifugal.kind === 'cannot-say' && centrifugal.why === displacement.why
  if (same) return <Words of={centrifugal} units={units} />
  return (
    <>
      {wordOf(centrifugal).word === wordOf(displacement).word ? null : (
        <p>
          <Status tone="unsure">Depends on the kind of pump</Status>
        </p>
      )}
      <p className="muted text">How the pump works is not in the register, so both are told.</p>
      <ul className="plain-list stack-tight">
        {(
          [
            ['centrifugal', centrifugal],
            ['displacement', displacement],
          ] as const
        ).map(([type, of]) => (
          <li key={type}>
            <strong>{IF_IT_IS[type]}</strong>
            <Words of={of} units={units} />
          </li>
        ))}
      </ul>
    </>
  )
}

function Words({ of, units }: { of: PumpEvidence; units: UnitSystem }) {
  const { tone, word } = wordOf(of)
  return (
    <>
      <p>
        <Status tone={tone}>{word}</Status>
      </p>
      <p className="text">
        {sentence(daysShown(of.why, units))} Next: {of.next}.
      </p>
    </>
  )
}

function wordOf(of: PumpEvidence): { tone: Tone; word: string } {
  if (of.kind === 'cannot-say') return { tone: 'unsure', word: 'Cannot say' }
  if (of.says === 'pump') return { tone: 'watch', word: 'The pump gives less' }
  return of.says === 'not-pump'
    ? { tone: 'note', word: 'Not the pump, by its own readings' }
    : { tone: 'unsure', word: 'Cannot tell yet' }
}
