import Link from 'next/link'
import { Status, type Tone } from '@/app/ui/status'
import { CAUSE_WORDS } from '@/lib/domain/logbook/yield-words'
import type { YieldCause } from '@/lib/domain/yield/decline/types'
import { paths } from '@/lib/paths'
import type { FleetCalls as Calls, causeCounts } from '@/lib/records/yield-list'
import { countWords } from '../_due/status-strip'

const SHOWN: readonly [YieldCause, Tone][] = [
  ['well', 'alarm'],
  ['water-table', 'watch'],
  ['pump', 'note'],
  ['unclear', 'unsure'],
  ['steady', 'calm'],
]

/** How the fleet stands by cause, and which calls hold for the fleet as a whole. */
export function FleetCalls({ calls, counts }: { calls: Calls; counts: ReturnType<typeof causeCounts> }) {
  return (
    <>
      <section className="strip" aria-label="The fleet by cause">
        {SHOWN.filter(([cause]) => counts[cause] > 0).map(([cause, tone]) => (
          <Status key={cause} tone={tone}>
            <Link href={paths.yields({ cause })} prefetch={false}>
              {CAUSE_WORDS[cause]}: {countWords(counts[cause])}
            </Link>
          </Status>
        ))}
      </section>
      <p className="text">{sayCalls(calls)}</p>
    </>
  )
}

/** Which calls hold over all wells at the share of false calls that was set. */
function sayCalls({ listed, flagged, held, share }: Calls): string {
  const percent = `${Number((100 * share).toPrecision(3))} %`
  const wells = `${listed.toLocaleString('en-US')} ${listed === 1 ? 'well' : 'wells'}`
  if (flagged === 0) {
    return `Of ${wells}, none is called as losing capacity. A call takes readings that a well which holds would show in at most ${percent} of cases, however often one looks.`
  }
  const own = `${flagged} of ${wells} ${flagged === 1 ? 'is' : 'are'} called on ${flagged === 1 ? 'its' : 'their'} own readings`
  const whole =
    held === flagged
      ? flagged === 1
        ? 'The call also holds'
        : 'All of them also hold'
      : `${held} of them also ${held === 1 ? 'holds' : 'hold'}`
  return `${own}. ${whole} for the fleet as a whole: among calls made so, at most ${percent} are expected to be false, although ${wells} were looked at (Benjamini and Hochberg).`
}
