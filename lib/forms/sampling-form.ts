import { parseDay, parseTime } from '@/lib/domain/quantity/day'
import { GROUP_NAMES } from '@/lib/domain/water/group-words'
import type { SampledGroup } from '@/lib/domain/water/sampling'
import type { Moment } from '@/lib/domain/water/types'
import { listParam, type Params, textParam } from './list-filters'

export const SAMPLED_GROUPS = Object.keys(GROUP_NAMES) as SampledGroup[]

export type SamplingQuery = {
  groups: readonly SampledGroup[]
  /** When the bottles were (or will be) filled; null where nothing or no day was typed. */
  sampledAt: Moment | null
  chlorinated: boolean
  /** What the laboratory needs between its counter and the start of the test. */
  setupHours: number
  typed: Record<string, string>
  errors: Record<string, string>
}

const SETUP_MOST_H = 24

/** The sampling sheet that an address asks for; `due` are the groups offered where none is chosen. */
export function readSampling(params: Params, due: readonly SampledGroup[]): SamplingQuery {
  const chosen = SAMPLED_GROUPS.filter((group) => listParam(params, 'groups').includes(group))
  const typed = {
    on: textParam(params, 'on'),
    at: textParam(params, 'at'),
    setup: textParam(params, 'setup'),
    chlorinated: textParam(params, 'chlorinated'),
  }
  const errors: Record<string, string> = {}
  const setup =
    typed.setup === '' ? 0 : /^\d+(?:\.\d+)?$/.test(typed.setup) ? Number(typed.setup) : Number.NaN
  if (!(setup <= SETUP_MOST_H)) errors.setup = `The hours are a number from 0 to ${SETUP_MOST_H}`
  return {
    groups: chosen.length > 0 ? chosen : due,
    sampledAt: momentOf(typed.on, typed.at, errors),
    chlorinated: typed.chlorinated === 'yes',
    setupHours: Number.isNaN(setup) ? 0 : Math.min(setup, SETUP_MOST_H),
    typed,
    errors,
  }
}

/** A day with its time; a time alone says nothing, and a day alone sets no latest hour. */
function momentOf(on: string, at: string, errors: Record<string, string>): Moment | null {
  if (on === '') {
    if (at !== '') errors.on = 'Enter the day too'
    return null
  }
  const day = parseDay(on, null)
  if (!day.ok) {
    errors.on = day.message
    return null
  }
  if (at === '') return day.day
  const time = parseTime(at)
  if (time.ok) return `${day.day}T${time.time}`
  errors.at = time.message
  return day.day
}
