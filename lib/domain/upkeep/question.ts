import { addDays, daysBetween } from '@/lib/domain/quantity'
import type { MeterKind, MeterReading, ReadingQuestion, UsageTrack, UsePoint } from './types'
import { sayDay, sayUse } from './words'

/**
 * What to ask the person who has just typed a meter reading; null where there is nothing to ask.
 *
 * Shape   the track is of the same meter without this reading; the reading may be older than others.
 * Units   s for hours, m³ for volume, in `expectedBetween` too.
 * Answer  'backward' below the reading before it or above the one after it; 'too-fast' where the meter would have
 *         run more than 24 h a day, or ten times as fast as it ever did; 'same-day-jump' where a reading of the same
 *         day differs by more than the hours of a day, or ten times a day's use, can explain. A reading that comes
 *         with its explanation is not questioned. The first reading of a meter never is.
 */
export function questionReading(
  track: Pick<UsageTrack, 'points' | 'perDayMax'>,
  reading: MeterReading,
  what: MeterKind,
): ReadingQuestion | null {
  if (reading.explained !== null) return null
  const sameDay = track.points.find(({ on }) => on === reading.on)
  if (sameDay) return questionSameDay(sameDay, track.perDayMax, reading, what)
  const before = track.points.findLast(({ on }) => on < reading.on) ?? null
  const next = track.points.find(({ on }) => on > reading.on)
  // Over a gap the next reading is another meter's, and no bound on this one.
  const after = next && (before === null || next.used !== null) ? next : null
  const expectedBetween = between(before, after, track.perDayMax, reading)
  const { value } = reading
  const says = `${sayUse(value, what)} on ${sayDay(reading.on)}`
  if (before && value < before.value) {
    const message = `${says} is less than the ${sayUse(before.value, what)} read on ${sayDay(before.on)}. Was the meter replaced, did it roll over, or is a digit wrong?`
    return { code: 'backward', message, expectedBetween }
  }
  if (after && value > after.value) {
    const message = `${says} is more than the ${sayUse(after.value, what)} read later, on ${sayDay(after.on)}. Is the date right, or is a digit wrong?`
    return { code: 'backward', message, expectedBetween }
  }
  if (before && expectedBetween.high !== null && value > expectedBetween.high) {
    return { code: 'too-fast', message: tooFast(before, reading, what), expectedBetween }
  }
  return null
}

function questionSameDay(
  point: UsePoint,
  perDayMax: number,
  reading: MeterReading,
  what: MeterKind,
): ReadingQuestion | null {
  if (Math.abs(reading.value - point.value) <= perDayMax) return null
  const message = `There is already a reading of ${sayUse(point.value, what)} on ${sayDay(point.on)}; ${sayUse(reading.value, what)} is too far from it for one day. Which is right?`
  const low = Math.max(0, point.value - perDayMax)
  return { code: 'same-day-jump', message, expectedBetween: { low, high: point.value + perDayMax } }
}

/** From the reading before to the one after, or to what the meter can have gained since. */
function between(
  before: UsePoint | null,
  after: UsePoint | null,
  perDayMax: number,
  reading: MeterReading,
): ReadingQuestion['expectedBetween'] {
  const reach = before ? before.value + perDayMax * (daysBetween(before.on, reading.on) + 1) : null
  const highs = [reach, after?.value ?? null].filter((high) => high !== null)
  return { low: before?.value ?? 0, high: highs.length > 0 ? Math.min(...highs) : null }
}

function tooFast(before: UsePoint, reading: MeterReading, what: MeterKind): string {
  const gain = sayUse(reading.value - before.value, what)
  const days = daysBetween(before.on, reading.on)
  const span = `in the ${days === 1 ? 'day' : `${days} days`} since ${sayDay(addDays(reading.on, -days))}`
  const limit =
    what === 'hours' && reading.value - before.value > 86_400 * (days + 1)
      ? 'more than there are hours'
      : 'more than ten times as fast as this meter ever ran'
  return `${gain} ${span} is ${limit}. Is a digit wrong, or is it in another unit?`
}
