/**
 * Invented wells with a known meter, for measuring the projection: the true use of every day, the readings that
 * somebody would have taken, and a seeded dice so that each run is the same. Days are numbers from 1970-01-01 here,
 * by Date.UTC: none of the code under test is used.
 */
export type Kind = 'garden' | 'house' | 'cabin' | 'school' | 'stock'
export const KINDS: readonly Kind[] = ['garden', 'house', 'cabin', 'school', 'stock']

/** A small seeded generator (mulberry32); uniform on 0..1. */
export function dice(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = state
    t = Math.imul(t ^ (t >>> 15), t | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296
  }
}

export const textDay = (day: number) => new Date(day * 86_400_000).toISOString().slice(0, 10)
export const dayFrom = (text: string) => Date.parse(`${text}T00:00:00Z`) / 86_400_000

const START = Date.UTC(2012, 0, 1) / 86_400_000
const DAYS = 12 * 365

/** Cumulative use at the end of each day from START, and the first day. */
export type TrueMeter = { start: number; total: Float64Array }

function normal(rnd: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - rnd())) * Math.cos(2 * Math.PI * rnd())
}

/** What each kind of use looks like over the year, at a day of the year. */
function shape(kind: Kind, rnd: () => number): (dayOfYear: number) => number {
  const shift = (rnd() - 0.5) * 30
  const bump = (day: number, middle: number, width: number) => {
    const away = Math.min(Math.abs(day - middle), 365 - Math.abs(day - middle))
    return Math.exp(-0.5 * (away / width) ** 2)
  }
  const width = 30 + 25 * rnd()
  switch (kind) {
    case 'garden':
      return (day) => 0.03 + bump(day, 200 + shift, width)
    case 'house':
      return (day) => 0.85 + 0.3 * bump(day, 200 + shift, 50)
    case 'cabin':
      return (day) => 0.02 + bump(day, 205 + shift, 25) + 0.6 * bump(day, 360, 10)
    case 'school':
      return (day) => (day > 170 && day < 240 ? 0.1 : 1)
    case 'stock':
      return (day) => 0.6 + 0.6 * bump(day, 210 + shift, 60)
  }
}

/** Twelve years of a meter: season, years that differ, weeks that differ, some drift, sometimes a new level. */
export function trueMeter(kind: Kind, rnd: () => number): TrueMeter {
  const season = shape(kind, rnd)
  const perDay = 0.3 + 1.5 * rnd()
  const yearSd = 0.1 + 0.15 * rnd()
  const drift = 0.05 * normal(rnd)
  const stepAt = rnd() < 0.1 ? Math.floor(rnd() * DAYS) : DAYS
  const stepTo = Math.exp(0.4 * normal(rnd))
  const total = new Float64Array(DAYS)
  let year = 1
  let week = 1
  let sum = 0
  for (let i = 0; i < DAYS; i++) {
    if (i % 365 === 0) year = Math.exp(yearSd * normal(rnd))
    if (i % 7 === 0) week = Math.exp(0.3 * normal(rnd))
    const level = perDay * year * week * Math.exp((drift * i) / 365) * (i >= stepAt ? stepTo : 1)
    sum += level * season((i % 365) + 1) * (0.5 + rnd())
    total[i] = sum
  }
  return { start: START, total }
}

/** Days on which somebody reads the meter: 1 to 12 times a year, irregular, from the first to the last day. */
export function readingDays(perYear: number, rnd: () => number, from: number, to: number): number[] {
  const days: number[] = []
  for (let at = from; at < to; at += Math.max(1, Math.round((365 / perYear) * (0.5 + rnd())))) days.push(at)
  return days
}

export const totalOn = ({ start, total }: TrueMeter, day: number) => total[day - start] ?? Number.NaN

/** The first day by the end of which the use since `since` reaches the limit; null when the truth ends before. */
export function trueCrossing(meter: TrueMeter, since: number, limit: number): number | null {
  const target = totalOn(meter, since) + limit
  const at = meter.total.findIndex((sum) => sum >= target)
  return at < 0 ? null : meter.start + at
}
