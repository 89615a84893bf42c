import type { Fact } from '@/lib/domain/logbook/kinds'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { Dice } from './dice'
import { typed } from './quantities'
import { clear, positive, sampledDuties, sampleFact } from './samples'
import type { Visit, WellLife } from './visits'

/** What a well's story changes in the visits that its ordinary years gave it. */
export function tell(life: WellLife, visits: Visit[], dice: Dice): Visit[] {
  switch (life.story) {
    case 'clogging-then-rehabilitated':
      return [...visits, rehabilitation(life)]
    case 'flood-positive':
      return [...visits, ...flood(life, dice() < 0.5)]
    case 'cannot-be-found':
      return lostHead(visits, life.end)
    case 'meter-replaced':
      return meterReplaced(visits, life.end)
    case 'meter-rolled-over':
      return rolledOver(visits)
    case 'misread-meter':
      return misread(visits)
    default:
      return visits
  }
}

function rehabilitation(life: WellLife): Visit {
  return visit(life.rehabilitatedOn ?? life.end, 'Joss', [
    { kind: 'event', event: 'rehabilitated' },
    {
      kind: 'note',
      text: 'Pit surged and pumped clear for six hours. Red slime off the casing. Drop pipe and foot brushed.',
    },
  ])
}

/** The flood of two springs ago: positive, disinfected, one more positive, and two clear samples. */
function flood(life: WellLife, twice: boolean): Visit[] {
  const day = (n: number) => addDays(life.end, n)
  const bad = (n: number, id: string, count: string) =>
    visit(day(n), 'Maren', [sampleFact(day(n), '10:10', id, positive(count)), sampledDuties()])
  const good = (n: number, id: string) =>
    visit(day(n), 'Maren', [sampleFact(day(n), '09:50', id, clear()), sampledDuties()])
  const dose = (n: number) =>
    visit(day(n), 'Joss', [
      { kind: 'service-done', duties: ['disinfection'], names: ['Disinfection'], parts: [] },
      {
        kind: 'note',
        text: 'Household told not to drink. Well, lines and tank dosed with plain bleach, 24 hours, flushed to the meadow away from the stream. Filter and softener bypassed.',
      },
    ])
  return [
    visit(day(-596), 'Maren', [
      { kind: 'event', event: 'flooded' },
      { kind: 'note', text: 'River over the meadow; cap under water for two days.' },
    ]),
    bad(-589, 'FL-1', '410.6'),
    dose(-585),
    ...(twice ? [bad(-571, 'FL-2', '12.1'), dose(-568)] : []),
    good(-553, 'FL-3'),
    good(-539, 'FL-4'),
  ]
}

/** The last two times nobody found the head. */
function lostHead(visits: Visit[], end: Day): Visit[] {
  const kept = visits.filter((v) => v.on < addDays(end, -420))
  const search = (n: number, text: string) =>
    visit(addDays(end, n), 'Tilly (summer)', [
      { kind: 'event', event: 'not-found' },
      { kind: 'note', text },
    ])
  return [
    ...kept,
    search(-160, 'Blaze on the larch is gone, ground graded for the new track. Probed for an hour.'),
    search(-61, 'Tried again with the magnet. Nothing. Ask for the old photos.'),
  ]
}

/** The hour meter was replaced two years ago and begins at nothing. */
function meterReplaced(visits: Visit[], end: Day): Visit[] {
  const swap = addDays(end, -700)
  const before = visits.filter((v) => v.on < swap)
  const old = hoursOn(before.at(-1))
  const after = visits.filter((v) => v.on >= swap).map((v) => withHours(v, (h) => h - old - 14))
  return [
    ...before,
    visit(swap, 'Joss', [
      {
        kind: 'event',
        event: 'meter-replaced',
        meter: 'hours',
        oldReading: typed(old + 14, 'h', 0),
        newReading: typed(0, 'h', 0),
      },
    ]),
    ...after.filter((v) => hoursOn(v) > 0),
  ]
}

/** A four-figure hour meter that has gone past 9,999: the person said so when it was asked. */
function rolledOver(visits: Visit[]): Visit[] {
  const middle = hoursOn(visits[Math.floor(visits.length / 2)])
  let rolled = false
  return visits.map((v) => {
    const shown = hoursOn(v) + 10_000 - middle
    if (shown < 10_000) return withHours(v, () => shown)
    const first = !rolled
    rolled = true
    return withHours(v, () => shown - 10_000, first ? 'rolled-over' : null)
  })
}

/** One visit has two figures of the hour meter swapped; nobody noticed, and the reading is not used. */
function misread(visits: Visit[]): Visit[] {
  const target = visits.at(-4)
  return visits.map((v) => (v === target ? withHours(v, (h) => Math.round(h / 10)) : v))
}

function hoursOn(v: Visit | undefined): number {
  const fact = v?.facts.find((f) => f.kind === 'meter-reading' && f.meter === 'hours')
  return fact?.kind === 'meter-reading' ? fact.reading.si / 3600 : 0
}

function withHours(
  v: Visit,
  change: (hours: number) => number,
  explained: 'rolled-over' | null = null,
): Visit {
  return {
    ...v,
    facts: v.facts.map((fact) =>
      fact.kind === 'meter-reading' && fact.meter === 'hours'
        ? { ...fact, reading: typed(Math.max(0, change(fact.reading.si / 3600)), 'h', 0), explained }
        : fact,
    ),
  }
}

function visit(on: Day, by: string, facts: Fact[]): Visit {
  return { on, time: null, by, facts }
}
