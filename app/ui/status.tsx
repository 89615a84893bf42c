import type { ReactNode } from 'react'

export type Tone = 'alarm' | 'watch' | 'calm' | 'note' | 'unsure'

/** One shape a tone, so that nothing hangs on colour: triangle, diamond, disc, square, open ring. */
const SHAPES: Record<Tone, ReactNode> = {
  alarm: <path d="M8 1.5 15 14.5H1z" />,
  watch: <path d="M8 1 15 8 8 15 1 8z" />,
  calm: <circle cx="8" cy="8" r="6.5" />,
  note: <rect x="2" y="2" width="12" height="12" />,
  unsure: <circle cx="8" cy="8" r="6.5" />,
}

/** How something stands: a word, a shape and a colour that say the same. */
export function Status({ tone, children }: { tone: Tone; children: ReactNode }) {
  return (
    <span className={`status status-${tone}`}>
      <svg viewBox="0 0 16 16" aria-hidden="true" focusable="false">
        {SHAPES[tone]}
      </svg>
      <span className="status-word">{children}</span>
    </span>
  )
}
