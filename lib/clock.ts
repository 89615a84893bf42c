import { type Day, isDay } from '@/lib/domain/quantity/day'

/** The instant at which something is taken in, as ISO text in UTC. */
export function now(): string {
  return new Date().toISOString()
}

/**
 * Today where the outfit works.
 *
 * WELLROUND_TODAY fixes the day, for demonstrations and tests only: the logbook would be dated wrongly.
 */
export function today(): Day {
  const fixed = process.env.WELLROUND_TODAY
  if (fixed && !isDay(fixed)) throw new Error(`WELLROUND_TODAY is "${fixed}" and must be like 2026-03-27`)
  return fixed ? fixed : todayIn(zone(), Date.now())
}

/** The time zone in which the outfit works: WELLROUND_ZONE ("America/New_York"), or else that of the machine. */
export function zone(): string {
  return process.env.WELLROUND_ZONE || Intl.DateTimeFormat().resolvedOptions().timeZone
}

/**
 * The calendar day that it is, at an instant, in a time zone. Only this file turns a clock into a day.
 *
 * Units   `instantMs` in ms since 1970-01-01T00:00Z; `zone` an IANA name such as 'America/New_York'.
 * Throws  RangeError on a zone that is not known and an instant that is not finite.
 */
export function todayIn(zone: string, instantMs: number): Day {
  const parts = formatterFor(zone).formatToParts(instantMs)
  const part = (type: Intl.DateTimeFormatPartTypes) => parts.find((p) => p.type === type)?.value ?? ''
  return `${part('year').padStart(4, '0')}-${part('month')}-${part('day')}`
}

/** The hour of the day, 0 to 23, that it is at an instant (ms since 1970) in a time zone. */
export function hourIn(zone: string, instantMs: number): number {
  const text = new Intl.DateTimeFormat('en-US', { timeZone: zone, hour: '2-digit', hourCycle: 'h23' }).format(
    instantMs,
  )
  return Number(text)
}

/** Making a formatter costs far more than using it, and an outfit lives in one zone. */
const formatters = new Map<string, Intl.DateTimeFormat>()

function formatterFor(zone: string): Intl.DateTimeFormat {
  const known = formatters.get(zone)
  if (known) return known
  const formatter = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    calendar: 'gregory',
    numberingSystem: 'latn',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  })
  formatters.set(zone, formatter)
  return formatter
}
