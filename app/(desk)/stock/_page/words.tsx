import { Status, type Tone } from '@/app/ui/status'
import type { ShelfStanding } from '@/lib/domain/pump'

const WORDS: Record<ShelfStanding['kind'], { tone: Tone; word: string }> = {
  short: { tone: 'alarm', word: 'Short' },
  order: { tone: 'watch', word: 'Order' },
  'count first': { tone: 'unsure', word: 'Count first' },
  'no level': { tone: 'note', word: 'No reorder level' },
  enough: { tone: 'calm', word: 'Enough' },
}

/** How an item stands, by word and shape. */
export function ShelfMark({ standing }: { standing: ShelfStanding }) {
  const { tone, word } = WORDS[standing.kind]
  return <Status tone={tone}>{word}</Status>
}

/** A part by kind and size; a size that nobody wrote down is said to be missing. */
export const partName = (part: string, model: string | null): string =>
  `${part}, ${model ?? 'size not recorded'}`

/** How many there are: a shelf that nobody counted is not an empty one. */
export const sayShelf = (shelf: number | null): string => (shelf === null ? 'never counted' : String(shelf))
