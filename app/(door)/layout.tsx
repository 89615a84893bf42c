import type { ReactNode } from 'react'
import { Doorstep } from '../ui/shell'

export default function DoorLayout({ children }: { children: ReactNode }) {
  return <Doorstep>{children}</Doorstep>
}
