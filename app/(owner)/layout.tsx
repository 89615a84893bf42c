import type { ReactNode } from 'react'
import { signedInViewer } from '../ui/session'
import { Shell } from '../ui/shell'

/** The frame only: every page of this folder asks `signedInViewer` itself. */
export default async function OwnerLayout({ children }: { children: ReactNode }) {
  return (
    <Shell viewer={await signedInViewer()}>
      <div className="own stack">{children}</div>
    </Shell>
  )
}
