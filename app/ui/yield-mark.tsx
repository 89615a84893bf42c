import { Status, type Tone } from '@/app/ui/status'
import type { YieldSummary } from '@/lib/domain/logbook/yield-summary'
import { YIELD_WORDS, type YieldWord, yieldWord } from '@/lib/domain/logbook/yield-words'

const TONES: Record<YieldWord, Tone> = {
  losing: 'alarm',
  'may-be-losing': 'watch',
  'water-table': 'watch',
  pump: 'note',
  steady: 'calm',
  unclear: 'unsure',
}

/** What a well's yield does and why, in a word and a shape. */
export function YieldMark({ of }: { of: Pick<YieldSummary, 'cause' | 'flag'> }) {
  const word = yieldWord(of)
  return <Status tone={TONES[word]}>{YIELD_WORDS[word]}</Status>
}
