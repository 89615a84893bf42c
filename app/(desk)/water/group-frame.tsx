import Link from 'next/link'
import type { ReactNode } from 'react'
import { countWords } from '@/app/(desk)/_due/status-strip'
import { Pager } from '@/app/ui/pager'
import { Status } from '@/app/ui/status'
import type { WaterQuery, WaterViewGroup } from '@/lib/forms/water-query'
import { paths } from '@/lib/paths'
import { GROUP_TONES, GROUP_WORDS } from './words'

type Props = {
  group: WaterViewGroup
  count: number
  next: string | null
  query: WaterQuery
  children: ReactNode
}

/** One group with its count, and the way to the rest of it. */
export function GroupFrame({ group, count, next, query, children }: Props) {
  const alone = query.group !== null
  const here = { ...query.texts, group }
  return (
    <section className="stack-tight" aria-labelledby={`group-${group}`}>
      <div className="group-head">
        <h2 id={`group-${group}`}>
          <Status tone={GROUP_TONES[group]}>
            {GROUP_WORDS[group]} ({countWords(count)})
          </Status>
        </h2>
        {alone ? (
          <Link className="no-print" href={paths.water(query.texts)} prefetch={false}>
            All groups
          </Link>
        ) : null}
      </div>
      {children}
      <Pager
        first={alone && query.after !== null ? paths.water(here) : null}
        next={next === null ? null : paths.water(alone ? { ...here, after: next } : here)}
      >
        {alone ? 'Next 50' : `All ${countWords(count)}`}
        <span className="unseen">: {GROUP_WORDS[group]}</span>
      </Pager>
    </section>
  )
}
