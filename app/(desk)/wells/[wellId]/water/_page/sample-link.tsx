import Link from 'next/link'
import type { ReactNode } from 'react'
import { paths } from '@/lib/paths'

/** The lab sheet that something rests on. */
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
    <Link href={paths.sample(wellId, sampleId)} prefetch={false}>
      {children}
    </Link>
  )
}
