import type { Day } from '@/lib/domain/quantity'
import { type Move, moveOutOfSeason } from './closed-season'
import { type Anchor, conditionLimit, meterLimit, monthsLimit, unknown } from './limits'
import type { ClosedSeason, ConditionForecast, Duty, DutyStanding, LimitStanding, Usage } from './types'
import { asSentence, sayDay, sayMonthDay } from './words'

/**
 * When one duty on one well falls due, which limit says so, and why in plain sentences.
 *
 * Rule    the earliest limit wins. Each counts from the day the work was last done, early or late: never from the
 *         day it was planned for. Last done is the latest of the logbook and the register; never done counts from
 *         installation. A due day in the closed season moves to the day before it, or, where that is not after the
 *         last time, to the first open day after.
 * Shape   `doneOn` in any order; `closed` null where the well is always open.
 * Answer  `due` is null with a reason that says what to enter where nothing can be reckoned. `from` and `to` are the
 *         ends of an 80 % interval of the earliest limit: no later than those of any one limit.
 * Throws  RangeError on a limit that is not above 0, on months that are not whole, and on text that is no day.
 */
export function appraiseDuty(
  duty: Duty,
  doneOn: readonly Day[],
  usage: Usage,
  closed: ClosedSeason | null,
  conditions: readonly ConditionForecast[],
  installedOn: Day | null,
): DutyStanding {
  const lastDoneOn = latestDay([...doneOn, ...(duty.lastDoneOn === null ? [] : [duty.lastDoneOn])])
  const anchor = anchorOf(lastDoneOn, installedOn)
  const limits = limitsOf(duty, anchor, usage, conditions)
  const about = { key: duty.key, name: duty.name, consequence: duty.consequence, lastDoneOn, limits }
  const silent = [
    ...new Set(limits.filter((limit) => limit.due === null).map((limit) => asSentence(limit.why))),
  ]
  const first = earliest(limits)
  if (!first) {
    const reason = limits.length === 0 ? NO_LIMIT : silent.join(' ')
    return { ...about, due: null, basis: null, from: null, to: null, reason }
  }
  const move = (day: Day): Move =>
    closed ? moveOutOfSeason(day, closed, anchor?.on ?? null) : { day, moved: 'no' }
  const moved = move(first.due)
  const ends = intervalOf(limits)
  return {
    ...about,
    due: moved.day,
    basis: moved.day === first.due ? first.basis : 'closed-season',
    from: ends.from && move(ends.from).day,
    to: ends.to && move(ends.to).day,
    reason: [
      `Due ${sayDay(first.due)}: ${first.why}.`,
      ...moveWords(first.due, moved, closed),
      ...silent,
    ].join(' '),
  }
}

const NO_LIMIT = 'No limit is set: enter after how many months, run hours or gallons it falls due.'
const NO_ANCHOR =
  'there is nothing to count from: enter when this was last done, or when the well was installed'

function latestDay(days: readonly Day[]): Day | null {
  return days.reduce<Day | null>((last, day) => (last === null || day > last ? day : last), null)
}

function anchorOf(lastDoneOn: Day | null, installedOn: Day | null): Anchor | null {
  if (lastDoneOn !== null) return { on: lastDoneOn, as: 'done' }
  return installedOn === null ? null : { on: installedOn, as: 'installed' }
}

function limitsOf(
  duty: Duty,
  anchor: Anchor | null,
  usage: Usage,
  conditions: readonly ConditionForecast[],
): LimitStanding[] {
  const limits: LimitStanding[] = []
  const { everyMonths, everyRunS, everyM3, condition } = duty
  if (everyMonths !== null)
    limits.push(anchor ? monthsLimit(everyMonths, anchor) : unknown('months', NO_ANCHOR))
  if (everyRunS !== null) {
    limits.push(anchor ? meterLimit('hours', everyRunS, usage.hours, anchor) : unknown('hours', NO_ANCHOR))
  }
  if (everyM3 !== null) {
    limits.push(anchor ? meterLimit('volume', everyM3, usage.volume, anchor) : unknown('volume', NO_ANCHOR))
  }
  if (condition !== null) limits.push(conditionLimit(condition, conditions))
  return limits
}

type Dated = LimitStanding & { due: Day }

/** Of equal days the one listed first: months, hours, volume, condition. */
function earliest(limits: readonly LimitStanding[]): Dated | null {
  let first: Dated | null = null
  for (const limit of limits) {
    if (limit.due !== null && (first === null || limit.due < first.due)) first = { ...limit, due: limit.due }
  }
  return first
}

/** The ends of the earliest of several limits: no limit can come later than the one that ends first. */
function intervalOf(limits: readonly LimitStanding[]): { from: Day | null; to: Day | null } {
  const dated = limits.filter((limit) => limit.due !== null)
  const froms = dated.map((limit) => limit.from)
  const tos = dated.flatMap((limit) => (limit.to === null ? [] : [limit.to]))
  return { from: froms.includes(null) ? null : ([...froms].sort()[0] ?? null), to: tos.sort()[0] ?? null }
}

function moveWords(due: Day, { day, moved }: Move, closed: ClosedSeason | null): string[] {
  if (!closed || moved === 'no') return []
  const season = `the closed season from ${sayMonthDay(closed.from)} to ${sayMonthDay(closed.to)}${closed.why === '' ? '' : ` (${closed.why})`}`
  switch (moved) {
    case 'earlier':
      return [`${sayDay(due)} falls in ${season}, so it is brought forward to ${sayDay(day)}.`]
    case 'later':
      return [
        `${sayDay(due)} falls in ${season}, which had begun when it was last done, so it waits until ${sayDay(day)}.`,
      ]
    case 'never-open':
      return [`${sayDay(due)} falls in ${season}, which leaves no open day in the year: mend the season.`]
  }
}
