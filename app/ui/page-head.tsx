import type { ReactNode } from 'react'

/** The one heading of a page, what it is about in a line, and what can be done with the whole of it. */
export function PageHead({
  title,
  lead,
  children,
}: {
  title: ReactNode
  lead?: ReactNode
  children?: ReactNode
}) {
  return (
    <div className="page-head">
      <div className="page-head-text">
        <h1>{title}</h1>
        {lead ? <p className="muted text">{lead}</p> : null}
      </div>
      {children ? <div className="row no-print">{children}</div> : null}
    </div>
  )
}
