import { Status, type Tone } from '@/app/ui/status'
import type { PumpStanding } from '@/lib/domain/logbook/pump-standing'
import { sentence } from '@/lib/domain/logbook/wear-words'
import type { PumpEvidence, PumpType } from '@/lib/domain/pump'
import { daysShown, type UnitSystem } from '@/lib/domain/quantity'

const IF_IT_IS: Record<PumpType, string> = {
  centrifugal: 'If it is a centrifugal or jet pump',
  displacement: 'If it is a diaphragm or piston pump',
}

/** What the pump's readings say for the kind that it is; where that is not known, once where both come to the same. */
export function EvidenceWords({
  pump: { type, evidence },
  units,
}: {
  pump: Pick<PumpStanding, 'type' | 'evidence'>
  units: UnitSystem
}) {
  if (type !== null) return <Words of={evidence[type]} units={units} />
  const { centrifugal, displacement } = evidence
  const same = centrifugal.kind === 'cannot-say' && centrifugal.why === displacement.why
  if (same) return <Words of={centrifugal} units={units} />
  return (
    <>
      {wordOf(centrifugal).word === wordOf(displacement).word ? null : (
        <p>
          <Status tone="unsure">Depends on the kind of pump</Status>
        </p>
      )}
      <p className="muted text">
        How the pump works is not in the register, so both are told: name its model on the well’s form.
      </p>
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
