import type { Tone } from '@/app/ui/status'
import type { StopOutcome } from '@/lib/domain/place'
import type { RoundStatus } from '@/lib/records/rounds'

export const OUTCOME_WORDS: Record<StopOutcome, string> = {
  done: 'Done',
  partly: 'Partly done',
  'not-found': 'Not found',
  'no-access': 'No access',
}

export const OUTCOME_TONES: Record<StopOutcome, Tone> = {
  done: 'calm',
  partly: 'watch',
  'not-found': 'alarm',
  'no-access': 'alarm',
}

export const ROUND_STATUS: Record<RoundStatus, { word: string; tone: Tone }> = {
  planned: { word: 'Planned', tone: 'note' },
  out: { word: 'On the road', tone: 'watch' },
  closed: { word: 'Closed', tone: 'calm' },
}
