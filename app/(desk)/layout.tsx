import type { ReactNode } from 'react'
import { signedInViewer } from '../ui/session'
import { Shell } from '../ui/shell'

/** The frame only: every page of this folder asks `deskViewer` itself, since a frame is not made anew for each page. */
export default async function DeskLayout({ children }: { children: ReactNode }) {
  return <Shell viewer={await signedInViewer()}>{children}</Shell>
}
