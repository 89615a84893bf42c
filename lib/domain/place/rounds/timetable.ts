/** A planned day as its page shows it: when the truck is where, and what cannot be kept. */
import type { Day } from '@/lib/domain/quantity'
import type { LatLon } from '../geodesy'
import { type Conflict, conflictsOf } from './order'
import { schedule } from './schedule'
import { secondsOf } from './time-of-day'
import { type Driving, travelTimes } from './travel'
import type { RoundProblem, Schedule } from './types'
import { isUnwishedDay } from './visit-days'

/** One stop of a planned day: where, how long, and the owner's hours as HH:MM. */
export type DayStop = {
  id: string
  at: LatLon | null
  minutes: number
  notBefore: string | null
  doneBy: string | null
  /** Days of the week that the owner wishes, "Tue, Sat"; null where every day suits. */
  onlyOn: string | null
}

/** The day's frame: which day, the yard, the hours as HH:MM, and how the driving is reckoned. */
export type DayFrame = { day: Day; yard: LatLon | null; startAt: string; endAt: string; driving: Driving }

/**
 * `routed` are the stops that have a place, in their order; `unrouted` have none, and neither their way nor their
 * work is in the times. `conflicts` names every stop on a day that its owner does not wish or that would be late,
 * and the return.
 */
export type Timetable<S extends DayStop> = {
  problem: RoundProblem
  routed: S[]
  unrouted: S[]
  schedule: Schedule
  conflicts: Conflict[]
}

/**
 * The timetable of stops in the order given; null where there is no yard to start from.
 * Throws  RangeError on a time that is no HH:MM, and as `travelTimes`.
 */
export function timetable<S extends DayStop>(frame: DayFrame, stops: readonly S[]): Timetable<S> | null {
  if (!frame.yard) return null
  const routed = stops.filter((stop) => stop.at !== null)
  const problem = dayProblem(frame, frame.yard, routed)
  const planned = schedule(
    problem,
    routed.map((_, i) => i),
  )
  return {
    problem,
    routed,
    unrouted: stops.filter((stop) => stop.at === null),
    schedule: planned,
    conflicts: [...unwished(frame.day, stops), ...conflictsOf(problem, planned)],
  }
}

function unwished(day: Day, stops: readonly DayStop[]): Conflict[] {
  return stops
    .filter(({ onlyOn }) => isUnwishedDay(onlyOn, day))
    .map(({ id, onlyOn }) => ({ kind: 'other-day', id, day, onlyOn }))
}

function dayProblem(frame: DayFrame, yard: LatLon, routed: readonly DayStop[]): RoundProblem {
  return {
    travelS: travelTimes([yard, ...routed.map((stop) => stop.at ?? yard)], frame.driving),
    stops: routed.map((stop) => ({
      id: stop.id,
      serviceS: stop.minutes * 60,
      window: {
        notBeforeS: stop.notBefore === null ? null : secondsOf(stop.notBefore),
        doneByS: stop.doneBy === null ? null : secondsOf(stop.doneBy),
      },
    })),
    startS: secondsOf(frame.startAt),
    endS: secondsOf(frame.endAt),
  }
}
