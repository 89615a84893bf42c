import type { ReactNode } from 'react'

/** A table that may be wider than the screen: scrolls in its own frame, which the keyboard can reach. */
export function TableFrame({ label, children }: { label: string; children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a frame that scrolls must be reached without a mouse
    <section className="table-frame" aria-label={label} tabIndex={0}>
      {children}
    </section>
  )
}
