/** The private calendar of one person as a file of RFC 5545. */
import ical, { ICalCalendarMethod, ICalEventTransparency } from 'ical-generator'
import type { FeedEvent } from '@/lib/records/feed-events'

const REFRESH_S = 6 * 60 * 60

/** Whole-day events, one a due item. A calendar program asks again every few hours. */
export function calendarOf(name: string, events: readonly FeedEvent[]): string {
  const calendar = ical({
    name,
    prodId: { company: 'Wellround', product: 'Wells', language: 'EN' },
    method: ICalCalendarMethod.PUBLISH,
    ttl: REFRESH_S,
  })
  for (const { uid, on, title, note, sequence, changedAt } of events) {
    calendar.createEvent({
      id: uid,
      // Only year, month and day of it are written; noon keeps every zone on that day.
      start: new Date(`${on}T12:00:00Z`),
      timezone: 'UTC',
      allDay: true,
      summary: title,
      ...(note === '' ? {} : { description: note }),
      sequence,
      stamp: new Date(changedAt),
      transparency: ICalEventTransparency.TRANSPARENT,
    })
  }
  return calendar.toString()
}
