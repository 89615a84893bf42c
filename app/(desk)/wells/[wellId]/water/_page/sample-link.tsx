import Link from 'next/link'
import type { ReactNode } from 'react'
import { paths } from '@/lib/paths'

/** The lab sheet that something rests on, where it stands in the logbook. */
export function SampleLink({
  wellId,
  sampleId,
  children,
}: {
  wellId: string
  sampleId: string
  children: ReactNode
}) {
  return (
    <Link href={`${paths.well(wellId)}#line-${sampleId}`} prefetch={false}>
      {children}
    </Link>
  )
}
