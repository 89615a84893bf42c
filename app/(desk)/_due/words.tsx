import { Status, type Tone } from '@/app/ui/status'
import { CONSEQUENCE_WORDS } from '@/lib/domain/upkeep/due-words'
import type { Urgency } from '@/lib/domain/upkeep/rank'
import type { Consequence } from '@/lib/domain/upkeep/types'

export const URGENCY_WORDS: Record<Urgency, string> = {
  past: 'Past due',
  week: 'This week',
  month: 'Within 30 days',
  later: 'Later',
  unknown: 'No date known',
}

export const URGENCY_TONES: Record<Urgency, Tone> = {
  past: 'alarm',
  week: 'watch',
  month: 'note',
  later: 'calm',
  unknown: 'unsure',
}

const TONES: Record<Consequence, Tone> = { health: 'alarm', supply: 'watch', wear: 'note' }

export function ConsequenceMark({ consequence }: { consequence: Consequence }) {
  return <Status tone={TONES[consequence]}>{CONSEQUENCE_WORDS[consequence]}</Status>
}
