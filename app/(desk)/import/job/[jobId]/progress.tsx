'use client'

import { useRouter } from 'next/navigation'
import { useEffect, useState } from 'react'
import type { ImportJob } from '@/lib/exchange/jobs'

type Shown = Pick<ImportJob, 'id' | 'phase' | 'done' | 'total'>

const WORDS: Record<ImportJob['phase'], string> = {
  reading: 'Reading the file',
  checking: 'Holding it against the register',
  storing: 'Storing',
  ended: 'Ended',
}

/** Asks twice a second how far the import is; shows the outcome once it has ended. */
export function Progress({ job }: { job: Shown }) {
  const router = useRouter()
  const [shown, setShown] = useState<Shown>(job)
  useEffect(() => {
    const timer = setInterval(async () => {
      const answer = await fetch(`/api/import/${job.id}`).catch(() => null)
      // Signal lost for a moment: the import goes on, and the next question will find out.
      if (!answer?.ok) return
      const next = (await answer.json()) as Shown
      setShown(next)
      if (next.phase === 'ended') router.refresh()
    }, 500)
    return () => clearInterval(timer)
  }, [job.id, router])
  const share = shown.total > 0 ? Math.round((100 * shown.done) / shown.total) : null
  return (
    <p className="stack-tight" role="status">
      <label htmlFor="import-progress">
        {WORDS[shown.phase]}
        {share === null ? ' …' : `: ${share} %`}
      </label>
      <progress id="import-progress" max={100} value={share ?? undefined} />
    </p>
  )
}
