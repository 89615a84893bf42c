import type { ReactNode } from 'react'

/** In place of an empty list: what will stand here, and the first step towards it. */
export function EmptyState({ title, children }: { title: string; children: ReactNode }) {
  return (
    <section className="empty">
      <h2>{title}</h2>
      {children}
    </section>
  )
}
