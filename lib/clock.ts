import type { Day } from '@/lib/domain/quantity/day'

/** Today, in the zone of WELLROUND_ZONE, or else of the machine. */
export function today(): Day {
  return todayIn(process.env.WELLROUND_ZONE || Intl.DateTimeFormat().resolvedOptions().timeZone, Date.now())
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
