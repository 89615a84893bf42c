import Link from 'next/link'
import type { ReactNode } from 'react'

/** The ways from a page of a list to its first and its next page, each null where there is none. */
export function Pager({
  first,
  next,
  children,
}: {
  first: string | null
  next: string | null
  children: ReactNode
}) {
  return (
    <p className="row no-print">
      {first === null ? null : (
        <Link className="button button-quiet" href={first} prefetch={false}>
          Back to the first
        </Link>
      )}
      {next === null ? null : (
        <Link className="button button-quiet" href={next} prefetch={false}>
          {children}
        </Link>
      )}
    </p>
  )
}
