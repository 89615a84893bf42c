import type { Fact } from '@/lib/domain/logbook/kinds'
import { fromSi } from '@/lib/domain/quantity'
import { addDays, type Day, daysBetween } from '@/lib/domain/quantity/day'
import { slug } from '@/lib/domain/upkeep/keys'
import { typed } from './quantities'
import { type Visit, visit } from './visits'

type Tale = (visits: Visit[], end: Day) => Visit[]

/**
 * What happened to cartridge, brushes and meters of single wells, told after their ordinary years: without dice, so that
 * no other well changes.
 */
const TALES: Readonly<Record<string, Tale>> = {
  'School Yard': (visits, end) => gaugeRound(visits, end, () => 1),
  'Glasshouse 2': (visits, end) => [
    ...gaugeRound(visits, end, (daysLeft) => (daysLeft < 22 ? 3.1 : 1)),
    visit(addDays(end, -26), 'Joss', [
      { kind: 'event', event: 'iron-bloom' },
      { kind: 'note', text: 'Water ran rust red for an afternoon. Grower flushed the beds with it.' },
    ]),
  ],
  'Dairy Road 11': (visits) => eachSet(visits, (length, worn) => [length, length - 0.6 * worn]),
  'Retreat Hill': (visits) => {
    const last = visits.findLast((v) => v.facts.some(({ kind }) => kind === 'brush-length'))
    return eachSet(visits, (length, _, v) =>
      v === last ? [length - 0.11, length - 0.12] : [length, length - 0.01],
    )
  },
  'Tollefsen House': (visits) => visits.map((v) => without(v, ['hours'])),
  // Its meters came after the pump.
  'Mabe Meadow': ([first, ...visits]) => [...(first ? [without(first, ['hours', 'volume'])] : []), ...visits],
  'Red Clay 3': (visits) => visits.map((v) => without(v, ['hours', 'volume'])),
}

/** The visits of the well of that name as its tale has them; most wells have none. */
export function tellWear(name: string, visits: Visit[], end: Day): Visit[] {
  return TALES[name]?.(visits, end) ?? visits
}

const GAUGE_DAYS = 24
const ROUND_FROM = 210

/**
 * In the last seven months somebody on the place reads both gauges and the meter every few weeks, after a change of the
 * cartridge on their first day; the outfit's own visits of that time are left out. `times` lays an event over the drop.
 */
function gaugeRound(visits: Visit[], end: Day, times: (daysLeft: number) => number): Visit[] {
  const from = addDays(end, -ROUND_FROM)
  const kept = visits.filter(({ on }) => on < from)
  const [before, last] = [kept.at(-2), kept.at(-1)]
  if (!before || !last) throw new Error('a well whose gauges are read needs two visits before')
  const perDay = (gallonsOn(last) - gallonsOn(before)) / daysBetween(before.on, last.on)
  const gallons = (on: Day) => gallonsOn(last) + perDay * daysBetween(last.on, on)
  const change = visit(from, 'Maren', [
    {
      kind: 'service-done',
      duties: [slug('Change sediment cartridge')],
      names: ['Change sediment cartridge'],
      parts: [{ part: 'cartridge', model: '20 in, 5 micron', count: 1 }],
    },
    { kind: 'meter-reading', meter: 'volume', reading: typed(gallons(from), 'gal', 0), explained: null },
  ])
  const walks: Visit[] = []
  for (let day = GAUGE_DAYS; day < ROUND_FROM; day += GAUGE_DAYS) {
    const on = addDays(from, day)
    const drop = (2.1 + 5.5 * (day / ROUND_FROM) ** 1.6) * times(ROUND_FROM - day)
    walks.push(
      visit(on, 'caretaker', [
        { kind: 'meter-reading', meter: 'volume', reading: typed(gallons(on), 'gal', 0), explained: null },
        { kind: 'flow-reading', flow: typed(7 + 0.2 * Math.sin(day), 'gal/min', 1) },
        { kind: 'pressure-reading', before: typed(38 + drop, 'psi', 1), after: typed(38, 'psi', 1) },
      ]),
    )
  }
  return [...kept, change, ...walks]
}

function gallonsOn({ facts }: Visit): number {
  for (const fact of facts) {
    if (fact.kind === 'meter-reading' && fact.meter === 'volume') return fromSi(fact.reading.si, 'gal')
  }
  throw new Error('the visit has no volume')
}

const NEW_IN = 0.75

/** The lengths of every reading written anew from that of the first brush, in inches, and how much of it is worn. */
function eachSet(
  visits: Visit[],
  lengths: (first: number, worn: number, visit: Visit) => [number, number],
): Visit[] {
  return visits.map((v) => ({
    ...v,
    facts: v.facts.map((fact): Fact => {
      const first = fact.kind === 'brush-length' ? fact.lengths[0] : undefined
      if (!first) return fact
      const length = fromSi(first.si, 'in')
      return {
        kind: 'brush-length',
        lengths: lengths(length, NEW_IN - length, v).map((inch) => typed(inch, 'in', 2)),
      }
    }),
  }))
}

/** A well that never had the meter. */
function without(v: Visit, meters: readonly ('hours' | 'volume')[]): Visit {
  return {
    ...v,
    facts: v.facts.filter((fact) => fact.kind !== 'meter-reading' || !meters.includes(fact.meter)),
  }
}
