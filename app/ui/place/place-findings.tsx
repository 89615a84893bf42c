import { Status, type Tone } from '@/app/ui/status'
import type { PlaceFinding } from '@/lib/domain/logbook/place-words'

const TONES: Record<PlaceFinding['kind'], { tone: Tone; word: string }> = {
  wrong: { tone: 'alarm', word: 'Does not fit' },
  doubt: { tone: 'watch', word: 'In doubt' },
  good: { tone: 'calm', word: 'Holds' },
  open: { tone: 'unsure', word: 'Cannot say' },
}

/** What the measurement says about itself, what needs somebody first. */
export function PlaceFindings({ findings }: { findings: readonly PlaceFinding[] }) {
  return (
    <ul className="plain-list stack-tight">
      {findings.map(({ kind, says, doThis }) => (
        <li key={says}>
          <Status tone={TONES[kind].tone}>{TONES[kind].word}:</Status>{' '}
          <span>
            {says}
            {doThis ? <strong> {doThis}</strong> : null}
          </span>
        </li>
      ))}
    </ul>
  )
}
