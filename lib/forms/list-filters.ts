import { type Day, parseDay } from '@/lib/domain/quantity/day'
import type { Consequence } from '@/lib/domain/upkeep/types'
import type { YieldCause } from '@/lib/domain/yield/decline/types'

/** The query of an address, as the framework hands it over. */
export type Params = Readonly<Record<string, string | string[] | undefined>>

/** The one text of a parameter: the first of several, '' for none. */
export function textParam(params: Params, name: string): string {
  const value = params[name]
  return (Array.isArray(value) ? value[0] : value)?.trim() ?? ''
}

/** Every text of a parameter that may stand several times. */
export function listParam(params: Params, name: string): string[] {
  const value = params[name]
  return value === undefined ? [] : Array.isArray(value) ? value : [value]
}

const URGENCIES = ['past', 'week', 'month', 'later', 'unknown'] as const
const CONSEQUENCES = ['health', 'supply', 'wear'] as const
const DUE_FIELDS = ['duty', 'owner', 'area', 'consequence', 'from', 'to'] as const

export type DueQuery = {
  filter: {
    dutyKey?: string
    ownerId?: string
    area?: string
    consequence?: Consequence
    from?: Day
    to?: Day
  }
  /** The one group asked for, or null for all of them. */
  group: (typeof URGENCIES)[number] | null
  after: string | null
  /** What was asked, for links and to fill in the form again. */
  texts: Record<(typeof DUE_FIELDS)[number], string>
  /** One sentence a field that could not be read; such a field does not filter. */
  errors: Record<string, string>
  filtered: boolean
}

/** The due list that an address asks for. Anything unknown in it is left aside; a date that cannot be read is told. */
export function readDueQuery(params: Params): DueQuery {
  const text = (name: string) => textParam(params, name)
  const texts = {
    duty: text('duty'),
    owner: text('owner'),
    area: text('area'),
    consequence: text('consequence'),
    from: text('from'),
    to: text('to'),
  }
  const errors: Record<string, string> = {}
  const day = (name: 'from' | 'to'): Day | undefined => {
    if (texts[name] === '') return undefined
    const reading = parseDay(texts[name], null)
    if (reading.ok) return reading.day
    errors[name] = reading.message
    return undefined
  }
  const filter = {
    dutyKey: texts.duty || undefined,
    ownerId: texts.owner || undefined,
    area: texts.area || undefined,
    consequence: CONSEQUENCES.find((known) => known === texts.consequence),
    from: day('from'),
    to: day('to'),
  }
  if (filter.from !== undefined && filter.to !== undefined && filter.to < filter.from) {
    errors.to = 'The last day must not be before the first'
  }
  return {
    filter,
    group: URGENCIES.find((known) => known === text('group')) ?? null,
    after: text('after') || null,
    texts,
    errors,
    filtered: Object.values(filter).some((value) => value !== undefined),
  }
}

export type WellsQuery = {
  filter: { search?: string; area?: string; ownerId?: string; retired?: boolean }
  after: string | null
  texts: { q: string; area: string; owner: string; retired: string }
  filtered: boolean
}

const SEARCH_MAX = 200

/** The wells list that an address asks for. */
export function readWellsQuery(params: Params): WellsQuery {
  const texts = {
    q: textParam(params, 'q').slice(0, SEARCH_MAX),
    area: textParam(params, 'area'),
    owner: textParam(params, 'owner'),
    retired: textParam(params, 'retired') === '1' ? '1' : '',
  }
  return {
    filter: {
      search: texts.q || undefined,
      area: texts.area || undefined,
      ownerId: texts.owner || undefined,
      retired: texts.retired === '1',
    },
    after: textParam(params, 'after') || null,
    texts,
    filtered: texts.q !== '' || texts.area !== '' || texts.owner !== '' || texts.retired !== '',
  }
}

export type YieldQuery = {
  filter: { area?: string; cause?: YieldCause; called?: boolean }
  after: string | null
  texts: { area: string; cause: string; called: string }
  filtered: boolean
}

const CAUSES = ['well', 'water-table', 'pump', 'steady', 'unclear'] as const satisfies readonly YieldCause[]

/** The fleet by yield that an address asks for. Anything unknown in it is left aside. */
export function readYieldQuery(params: Params): YieldQuery {
  const cause = CAUSES.find((known) => known === textParam(params, 'cause'))
  const texts = {
    area: textParam(params, 'area'),
    cause: cause ?? '',
    called: textParam(params, 'called') === '1' ? '1' : '',
  }
  return {
    filter: { area: texts.area || undefined, cause, called: texts.called === '1' || undefined },
    after: textParam(params, 'after') || null,
    texts,
    filtered: texts.area !== '' || texts.cause !== '' || texts.called !== '',
  }
}
