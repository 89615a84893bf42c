/** The lines of the command line reckoning: one JSON object a well, or a well and a day. */
import { appraise, type Standing } from '@/lib/domain/logbook/appraise'
import type { Entry } from '@/lib/domain/logbook/entries'
import type { WellRegister } from '@/lib/domain/logbook/register'
import type { Day } from '@/lib/domain/quantity'
import type { FolderWell } from './folder'

export type ReckonOptions = {
  /** What is dated later is left aside; null takes everything. */
  asOf: Day | null
  /** A line for every day on which the well has an entry, each from what was recorded up to that day. */
  replay: boolean
}

/** The lines of a folder of wells, in the order of the wells and, with `replay`, of their days. */
export function* reckonLines(
  wells: readonly FolderWell[],
  { asOf, replay }: ReckonOptions,
): Generator<string> {
  for (const { label, register, entries } of wells) {
    const known = asOf === null ? entries : entries.slice(0, countUpTo(entries, asOf))
    if (!replay) yield lineOf(label, null, appraise(registerAsOf(register, asOf), known))
    else yield* replayLines(label, register, known)
  }
}

function* replayLines(label: string, register: WellRegister, entries: readonly Entry[]): Generator<string> {
  for (let end = 0; end < entries.length; ) {
    const day = entries[end]?.occurredOn ?? ''
    while (entries[end]?.occurredOn === day) end += 1
    yield lineOf(label, day, appraise(registerAsOf(register, day), entries.slice(0, end)))
  }
}

/** The contract of the command: its keys and their order. What a standing does not hold is left out. */
function lineOf(label: string, asOf: Day | null, standing: Standing): string {
  return JSON.stringify({
    well: label,
    ...(asOf === null ? {} : { asOf }),
    duties: standing.duties.map(({ name, due, basis, from, to }) => ({ duty: name, due, basis, from, to })),
  })
}

/** The register as somebody could have known it on a day: later dates in it were not known yet. */
function registerAsOf(register: WellRegister, asOf: Day | null): WellRegister {
  if (asOf === null) return register
  const known = (day: Day | null) => (day !== null && day > asOf ? null : day)
  return {
    ...register,
    installedOn: known(register.installedOn),
    retiredOn: known(register.retiredOn),
    duties: register.duties.map((duty) => ({ ...duty, lastDoneOn: known(duty.lastDoneOn) })),
  }
}

/** How many of the entries, which are in order of day, are of that day or before. */
function countUpTo(entries: readonly Entry[], day: Day): number {
  const later = entries.findIndex(({ occurredOn }) => occurredOn > day)
  return later < 0 ? entries.length : later
}
