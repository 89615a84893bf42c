/** Times of day as text, HH:MM, and as seconds after midnight. */

const SHAPE = /^([01]\d|2[0-3]):([0-5]\d)$/

/** Seconds after midnight. Throws RangeError on a text that is no HH:MM: it was checked on the way in. */
export function secondsOf(time: string): number {
  const match = SHAPE.exec(time)
  if (!match) throw new RangeError(`"${time}" is not a time of day`)
  return Number(match[1]) * 3600 + Number(match[2]) * 60
}

/** HH:MM to the nearest minute; past midnight it says so, since "00:20" would look like the same morning. */
export function timeText(seconds: number): string {
  const minutes = Math.round(seconds / 60)
  const text = `${pad(Math.floor(minutes / 60) % 24)}:${pad(minutes % 60)}`
  const days = Math.floor(minutes / 1440)
  return days === 0 ? text : `${text} ${days === 1 ? 'the next day' : `${days} days later`}`
}

/** "1 h 20 min", "45 min", "0 min": a length of time to the nearest minute, without its sign. */
export function lengthText(seconds: number): string {
  const minutes = Math.round(Math.abs(seconds) / 60)
  if (minutes < 60) return `${minutes} min`
  const rest = minutes % 60
  return rest === 0 ? `${Math.floor(minutes / 60)} h` : `${Math.floor(minutes / 60)} h ${rest} min`
}

const pad = (n: number) => String(n).padStart(2, '0')
