/** What each kind of limit says by itself: one standing a limit. */
import { addMonths, type Day, LAST_DAY, yearOf } from '@/lib/domain/quantity'
import { projectCrossing } from './crossing'
import type { ConditionForecast, Crossing, Duty, LimitStanding, MeterKind, UsageTrack } from './types'
import { CONDITION_WORDS, sayDay, sayUse } from './words'

/** The day a duty counts from. */
export type Anchor = { on: Day; as: 'done' | 'installed' }

/** The limit by calendar months: last done plus whole months, the last day of the month where it is short. */
export function monthsLimit(everyMonths: number, anchor: Anchor): LimitStanding {
  if (!(Number.isInteger(everyMonths) && everyMonths > 0)) {
    throw new RangeError(`a duty is done every whole number of months, not every ${everyMonths}`)
  }
  const every = everyMonths === 1 ? 'every month' : `every ${everyMonths} months`
  if (yearOf(anchor.on) + Math.ceil(everyMonths / 12) >= yearOf(LAST_DAY)) {
    return unknown('months', `${every} ${fromWords(anchor)} is beyond the calendar kept here`)
  }
  const due = addMonths(anchor.on, everyMonths)
  return { basis: 'months', due, from: due, to: due, why: `${every}, ${fromWords(anchor)}` }
}

/** The limit by meter: the day on which the use since the anchor reaches it. */
export function meterLimit(
  meter: MeterKind,
  limit: number,
  track: UsageTrack | null,
  anchor: Anchor,
): LimitStanding {
  if (!(limit > 0)) throw new RangeError(`a duty is done at a use above 0, not ${limit}`)
  const name = meter === 'hours' ? 'run hours' : 'volume'
  if (!track || track.points.length === 0) {
    const device = meter === 'hours' ? 'hour meter' : 'volume meter'
    return { ...unknown(meter, `${name} cannot be counted: no reading of the ${device} yet`), limit }
  }
  const crossing = projectCrossing(track, anchor.on, limit)
  const used = crossing.used
  if (crossing.kind === 'cannot-say') {
    const why = `when ${sayUse(limit, meter)} will be reached cannot be told: ${crossing.why}`
    return { ...unknown(meter, why), limit, ...(used === undefined ? {} : { used }) }
  }
  const { due, from, to } = crossing
  return {
    basis: meter,
    due,
    from,
    to,
    why: meterWords(meter, limit, crossing, anchor),
    used: crossing.used,
    limit,
  }
}

/** The limit by a measured condition, as the wear models forecast it. */
export function conditionLimit(
  condition: NonNullable<Duty['condition']>,
  forecasts: readonly ConditionForecast[],
): LimitStanding {
  const forecast = forecasts.find(({ kind }) => kind === condition.kind)
  const limit = condition.limitSi
  if (!forecast) {
    return { ...unknown('condition', `no reading of the ${CONDITION_WORDS[condition.kind]} yet`), limit }
  }
  if ('cannotSay' in forecast) return { ...unknown('condition', forecast.cannotSay), limit }
  const { due, from, to, why } = forecast
  return { basis: 'condition', due, from, to, why, limit }
}

/** A limit that has nothing to count from. */
export function unknown(basis: LimitStanding['basis'], why: string): LimitStanding {
  return { basis, due: null, from: null, to: null, why }
}

function fromWords({ on, as }: Anchor): string {
  return as === 'done'
    ? `last done ${sayDay(on)}`
    : `counted from installation on ${sayDay(on)} because it was never written down as done`
}

function sinceWords({ on, as }: Anchor): string {
  return as === 'done'
    ? `since ${sayDay(on)}`
    : `since installation on ${sayDay(on)} (never written down as done)`
}

function meterWords(
  meter: MeterKind,
  limit: number,
  crossing: Extract<Crossing, { kind: 'crossing' }>,
  anchor: Anchor,
): string {
  const { used, due, from, to, estimated } = crossing
  const about = estimated ? 'about ' : ''
  const so = `${about}${sayUse(used, meter)} of ${sayUse(limit, meter)} ${sinceWords(anchor)}`
  if (used >= limit) return `${so}: the limit was passed about ${sayDay(due)}`
  const range = to === null ? `not before ${sayDay(from)}` : `between ${sayDay(from)} and ${sayDay(to)}`
  return `${so}; at its pace through the year the limit comes about ${sayDay(due)} (4 times in 5 ${range})`
}
