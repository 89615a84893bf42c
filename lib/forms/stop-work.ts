const DUTY = 'duty:'
const MINUTES_MAX = 600
const NOTE_MAX = 400

/** The name of the box that plans the duty of that key. */
export const workField = (key: string) => `${DUTY}${key}`

/** The work of a stop as a sent form wants it; `minutes` null is reckoned from the duties. `version`: the stop's, as opened. */
export type TypedWork = {
  version: number
  keys: string[]
  minutes: number | null
  note: string | null
}

/** Reads the form of a stop's work, with one sentence a field that cannot be read. */
export function readStopWork(
  typed: Readonly<Record<string, string>>,
): { ok: true; work: TypedWork } | { ok: false; errors: Record<string, string> } {
  const errors: Record<string, string> = {}
  const minutesText = (typed.minutes ?? '').trim()
  const minutes = minutesText === '' ? null : /^\d+$/.test(minutesText) ? Number(minutesText) : Number.NaN
  if (minutes !== null && !(minutes >= 1 && minutes <= MINUTES_MAX)) {
    errors.minutes = `The minutes must be a whole number from 1 to ${MINUTES_MAX}, or blank`
  }
  const note = (typed.note ?? '').trim()
  if (note.length > NOTE_MAX) errors.note = `The note must be ${NOTE_MAX} characters or fewer`
  if (Object.keys(errors).length > 0) return { ok: false, errors }
  const keys = Object.keys(typed).filter((field) => field.startsWith(DUTY))
  return {
    ok: true,
    work: {
      version: Number(typed.version ?? Number.NaN),
      keys: keys.map((field) => field.slice(DUTY.length)),
      minutes,
      note: note === '' ? null : note,
    },
  }
}
