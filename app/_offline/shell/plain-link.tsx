import type { ReactNode } from 'react'

/** Stands for the router's link in pages that the phone shows by itself. */
export default function PlainLink({
  prefetch: _,
  ...props
}: {
  href: string
  prefetch?: boolean
  className?: string
  children: ReactNode
}) {
  return <a {...props} />
}
