import type { Day } from '@/lib/domain/quantity/day'
import type { YieldSummary } from './yield-summary'

/** How the well is holding up, for its household: plain words, no more than the record supports. */
export function sayYieldToOwner(summary: YieldSummary, show: (day: Day) => string): string {
  const { tests, cause, flag, change, baseline, outlook } = summary
  if (tests === 0) return 'Nobody has tested yet how fast your well fills again.'
  if (cause === 'unclear')
    return `${count(tests)} so far. That is not enough to say how your well is holding up.`
  if (cause === 'steady')
    return `${count(tests)} so far. Your well gives what it gave ${baseline ? `on ${show(baseline.since)}` : 'at first'}.`
  if (cause === 'pump')
    return 'The pump gives less than it did. The well itself holds up. The outfit will look at the pump.'
  if (cause === 'water-table')
    return 'The water in the ground stands lower than it did. The well itself holds up. Use water with care in dry months.'
  if (!flag)
    return 'Your well may give a little less than it did. It is too early to be sure. The next test will tell more.'
  const part = change === null ? 'less' : `about ${Math.round(-100 * change)} % less`
  const since = baseline ? ` than on ${show(baseline.since)}` : ''
  const until = outlook.belowDemand?.on
    ? ` It may give too little for your need around ${show(outlook.belowDemand.on)}.`
    : ''
  return `Your well gives ${part}${since}: it is slowly clogging. It can often be cleaned.${until}`
}

const count = (n: number) => `${n === 1 ? 'One test' : `${n} tests`}`
