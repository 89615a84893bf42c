import { fromSi } from '@/lib/domain/quantity'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { Dice } from './dice'
import { weakValve } from './pump-stories'
import { typed } from './quantities'
import { type Visit, visit, type WellLife } from './visits'
import { flood, openBacteria, openNitrate } from './water-stories'

/** What a well's story changes in the visits that its ordinary years gave it. */
export function tell(life: WellLife, visits: Visit[], dice: Dice): Visit[] {
  switch (life.story) {
    case 'clogging-then-rehabilitated':
      return [...visits, rehabilitation(life)]
    case 'flood-positive':
      return [...visits, ...flood(life, dice() < 0.5)]
    case 'open-bacteria':
      return [...visits, ...openBacteria(life)]
    case 'open-nitrate':
      return [...visits, ...openNitrate(life)]
    case 'lapsed-owner':
      return [...visits, ...heardFrom(life.end)]
    case 'weak-valve':
      return [...visits, ...weakValve(life)]
    case 'cannot-be-found':
      return lostHead(visits, life.end)
    case 'meter-replaced':
      return meterReplaced(visits, life.end)
    case 'meter-rolled-over':
      return rolledOver(visits)
    case 'misread-meter':
      return misread(visits)
    case 'flow-only':
      return visits.map(withoutLevels)
    case 'unit-slip':
      return unitSlip(visits)
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

/** The household writes again after two years: a sheet that nobody has looked at yet, and a visit asked for. */
function heardFrom(end: Day): Visit[] {
  const taken = addDays(end, -9)
  return [
    visit(taken, 'Ferdy Okonjo', [
      {
        kind: 'sample',
        sampledAt: `${taken}T08:10`,
        receivedAt: `${taken}T13:30`,
        lab: 'Sorrel County Laboratory',
        point: 'kitchen tap',
        enteredBy: 'owner',
        results: [{ analyte: 'Nitrate as N', result: '1.8', unit: 'mg/L' }],
      },
    ]),
    visit(addDays(end, -3), 'Ferdy Okonjo', [
      {
        kind: 'visit-request',
        about: 'look',
        urgent: false,
        text: 'We are back at the cabin. Could you see to the filter before the snow?',
        phone: '555-0108',
      },
    ]),
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

/** The tape was lost in the first summer: flow was read, levels never. */
function withoutLevels(v: Visit): Visit {
  return { ...v, facts: v.facts.filter((fact) => fact.kind !== 'level-reading') }
}

/** One visit has its levels written in metres, though the tape read feet; nobody noticed. */
function unitSlip(visits: Visit[]): Visit[] {
  const target = visits.at(-5)
  return visits.map((v) =>
    v !== target
      ? v
      : {
          ...v,
          facts: v.facts.map((fact) =>
            fact.kind === 'level-reading'
              ? { ...fact, level: typed(fromSi(fact.level.si, 'ft'), 'm', 2) }
              : fact,
          ),
        },
  )
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
