/** What a person ticked and typed of the work at a stop. */
type StopWorkReading =
  | { ok: true; work: { dutyKeys: string[]; minutes: number | null } }
  | { ok: false; errors: Record<string, string> }

const MINUTES_MAX = 720
const DUTY_FIELD = /^duty:(.{1,80})$/

/** The duties ticked, and the minutes, null where they were left blank. A number that cannot be read is a sentence. */
export function readStopWork(typed: Readonly<Record<string, string>>): StopWorkReading {
  const dutyKeys = Object.keys(typed).flatMap((field) => DUTY_FIELD.exec(field)?.[1] ?? [])
  const text = (typed.minutes ?? '').trim().replace(/ ?min$/, '')
  if (text === '') return { ok: true, work: { dutyKeys, minutes: null } }
  const minutes = /^\d{1,3}$/.test(text) ? Number(text) : Number.NaN
  if (!(minutes >= 1 && minutes <= MINUTES_MAX)) {
    return {
      ok: false,
      errors: { minutes: `The minutes must be a whole number from 1 to ${MINUTES_MAX}, or blank` },
    }
  }
  return { ok: true, work: { dutyKeys, minutes } }
}
