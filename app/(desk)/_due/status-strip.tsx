import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { Day, UnitSystem } from '@/lib/domain/quantity'
import { sayDistance } from '@/lib/domain/upkeep/due-words'
import { paths } from '@/lib/paths'
import { COUNT_MAX } from '@/lib/records/due-list'
import type { DueOverview } from '@/lib/records/due-overview'

type Props = { overview: DueOverview; today: Day; units: UnitSystem }

/** What needs attention today, in words, over the whole fleet. */
export function StatusStrip({ overview, today, units }: Props) {
  const { past, week, unknown, next } = overview
  const nothingPast = past.health + past.supply + past.wear === 0
  return (
    <section className="strip" aria-label="Today">
      {past.health > 0 ? (
        <Status tone="alarm">
          <Link href={paths.due({ group: 'past', consequence: 'health' })} prefetch={false}>
            {countWords(past.health)} past due for health
          </Link>
        </Status>
      ) : null}
      {past.supply > 0 ? (
        <Status tone="watch">
          <Link href={paths.due({ group: 'past', consequence: 'supply' })} prefetch={false}>
            {countWords(past.supply)} past due for supply
          </Link>
        </Status>
      ) : null}
      {past.wear > 0 ? (
        <Status tone="note">
          <Link href={paths.due({ group: 'past', consequence: 'wear' })} prefetch={false}>
            {countWords(past.wear)} past due for wear
          </Link>
        </Status>
      ) : null}
      {nothingPast ? <Status tone="calm">Nothing is past due</Status> : null}
      {week > 0 ? (
        <Link href={paths.due({ group: 'week' })} prefetch={false}>
          {countWords(week)} due this week
        </Link>
      ) : null}
      {unknown > 0 ? (
        <Status tone="unsure">
          <Link href={paths.due({ group: 'unknown' })} prefetch={false}>
            {countWords(unknown)} without a date
          </Link>
        </Status>
      ) : null}
      {nothingPast && week === 0 && next?.dueOn ? (
        <span>
          Next: {next.dutyName} at {next.label}, {sayDistance(next.dueOn, today)} (
          {showDay(next.dueOn, units)})
        </span>
      ) : null}
    </section>
  )
}

/** A count as read: counting stops at COUNT_MAX, and then says so. */
export function countWords(count: number): string {
  const text = count.toLocaleString('en-US')
  return count >= COUNT_MAX ? `${text}+` : text
}
