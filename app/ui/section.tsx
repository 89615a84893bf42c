import type { ReactNode } from 'react'
import type { FormState } from '@/lib/forms/form'

/**
 * A part of a long form that can be folded away; open where `open` says so, and wherever one of
 * its `fields` was filled in, refused or asked about, so that nothing that needs a look is hidden.
 */
export function Section({
  title,
  open,
  state,
  fields,
  children,
}: {
  title: string
  open?: boolean
  state: FormState & { questions?: Record<string, unknown> }
  fields: readonly string[]
  children: ReactNode
}) {
  const touched = fields.some((name) => state.errors[name] || state.questions?.[name] || state.typed[name])
  return (
    <details className="section" open={open || touched}>
      <summary>{title}</summary>
      <div className="section-body">{children}</div>
    </details>
  )
}
