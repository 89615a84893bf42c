import { addDays, type Day, parseDay, parseTime } from '@/lib/domain/quantity'
import type { Params } from './list-filters'
import { textParam } from './list-filters'

/** How long a plan runs: one day, Monday to Friday, or all days of a week. */
export const SPANS = ['day', 'week', 'seven'] as const
export type Span = (typeof SPANS)[number]

/** What is asked of a proposal. `asked` is false while the form was only opened. */
export type PlanQuery = {
  asked: boolean
  texts: {
    from: string
    span: string
    start: string
    end: string
    area: string
    soon: string
    person: string
  }
  errors: Record<string, string>
  wish: {
    days: Day[]
    startAt: string
    endAt: string
    area: string | null
    soonDays: number
  } | null
}

const SOON_MAX = 120

/** The plan that an address asks for, with one sentence a field that cannot be read. */
export function readPlanQuery(
  params: Params,
  usual: { startAt: string; endAt: string },
  today: Day,
  weekdayOf: (day: Day) => number,
): PlanQuery {
  const asked = textParam(params, 'from') !== ''
  const text = (name: string, initial: string) => (asked ? textParam(params, name) : initial)
  const texts = {
    from: text('from', today),
    span: text('span', 'day'),
    start: text('start', usual.startAt),
    end: text('end', usual.endAt),
    area: textParam(params, 'area'),
    soon: text('soon', '30'),
    person: textParam(params, 'person'),
  }
  const errors: Record<string, string> = {}
  const from = parseDay(texts.from, null)
  if (!from.ok) errors.from = from.message
  const span = SPANS.find((known) => known === texts.span) ?? 'day'
  const startAt = timeIn(texts.start, 'start', errors)
  const endAt = timeIn(texts.end, 'end', errors)
  if (startAt !== null && endAt !== null && endAt <= startAt)
    errors.end = 'The truck must be back after it leaves'
  const soonDays = /^\d{1,3}$/.test(texts.soon) ? Number(texts.soon) : Number.NaN
  if (!(soonDays <= SOON_MAX)) errors.soon = `The days ahead must be a whole number from 0 to ${SOON_MAX}`
  if (!from.ok || startAt === null || endAt === null || Object.keys(errors).length > 0) {
    return { asked, texts, errors, wish: null }
  }
  const days = daysOf(from.day, span, weekdayOf)
  const area = texts.area === '' ? null : texts.area
  return { asked, texts, errors, wish: { days, startAt, endAt, area, soonDays } }
}

function timeIn(text: string, field: string, errors: Record<string, string>): string | null {
  const reading = parseTime(text)
  if (reading.ok) return reading.time
  errors[field] = reading.message
  return null
}

/** The days from the first on: a working week leaves Saturday and Sunday out. */
function daysOf(first: Day, span: Span, weekdayOf: (day: Day) => number): Day[] {
  if (span === 'day') return [first]
  const week = Array.from({ length: 7 }, (_, i) => addDays(first, i))
  return span === 'seven' ? week : week.filter((day) => weekdayOf(day) <= 5)
}

/** One round of a sent plan. `add` are labels of wells that were typed in. */
export type PlannedRound = {
  day: Day
  name: string
  stops: { wellId: string; dutyKeys: string[] }[]
  add: string[]
}

const STOP_FIELD = /^stop:(\d{4}-\d{2}-\d{2}):(.{1,60})$/
const NAME_MAX = 80

/** The rounds of a sent plan: a day for each that has a stop ticked or a well typed in. */
export function readPlan(typed: Readonly<Record<string, string>>): {
  rounds: PlannedRound[]
  errors: Record<string, string>
} {
  const rounds = new Map<Day, PlannedRound>()
  const errors: Record<string, string> = {}
  const roundOf = (day: Day): PlannedRound => {
    const round = rounds.get(day) ?? { day, name: '', stops: [], add: [] }
    rounds.set(day, round)
    return round
  }
  for (const [field, value] of Object.entries(typed)) {
    const match = STOP_FIELD.exec(field)
    if (match) roundOf(match[1] ?? '').stops.push({ wellId: match[2] ?? '', dutyKeys: keysIn(value) })
    if (!field.startsWith('add:') || value.trim() === '') continue
    const labels = value.split(/[,;\n]/).map((label) => label.trim())
    roundOf(field.slice(4)).add.push(...labels.filter(Boolean))
  }
  for (const round of rounds.values()) {
    const name = (typed[`name:${round.day}`] ?? '').trim()
    round.name = name === '' ? `Round of ${round.day}` : name
    if (name.length > NAME_MAX)
      errors[`name:${round.day}`] = `The name must be ${NAME_MAX} characters or fewer`
    if (!parseDay(round.day, null).ok) errors.plan = 'This plan has lost its days: ask for a proposal again'
  }
  return { rounds: [...rounds.values()].sort((a, b) => (a.day < b.day ? -1 : 1)), errors }
}

const keysIn = (value: string) => value.split(',').filter((key) => key !== '')
