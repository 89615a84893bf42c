import type { Fact } from '@/lib/domain/logbook/kinds'
import { addDays, type Day, daysBetween } from '@/lib/domain/quantity/day'
import { slug } from '@/lib/domain/upkeep/keys'
import type { DutyFields } from '@/lib/records/duty-fields'
import { between, chance, type Dice, pick, wobble } from './dice'
import { CARTRIDGES, partsAtFirst } from './equipment'
import { capacityAt, flowAt, hoursBetween, type Nature, staticAt, type Weather } from './nature'
import { typed } from './quantities'
import type { Place, Story } from './valley'

export type Visit = { on: Day; time: string | null; by: string; facts: Fact[] }

export type WellLife = {
  nature: Nature
  place: Place
  story: Story | undefined
  duties: readonly DutyFields[]
  installedOn: Day
  end: Day
  rehabilitatedOn: Day | null
}

const CREW: readonly [string, ...string[]] = ['Maren', 'Joss', 'Tilly (summer)']

/** What the meters and wearing parts stand at while a well's years go by. */
type State = {
  hours: number
  gallons: number
  sinceCartridge: number
  brushIn: number
  at: Day
  done: Map<string, Day>
}

/** Visits of one well from its installation to the end, with whatever its story adds elsewhere. */
export function visitsOf(life: WellLife, dice: Dice, weather: Weather): Visit[] {
  const state: State = {
    hours: 0,
    gallons: 0,
    sinceCartridge: 0,
    brushIn: 0.75,
    at: life.installedOn,
    done: new Map(life.duties.map((duty) => [duty.key, life.installedOn])),
  }
  const visits: Visit[] = []
  let on = addDays(life.installedOn, Math.round(between(dice, 60, 120)))
  const last = life.story === 'lapsed-owner' ? addDays(life.end, -820) : life.end
  while (on <= last) {
    if (!isClosed(life.place, on)) visits.push(visitOn(life, state, on, dice, weather))
    on = addDays(on, Math.round(between(dice, 70, 150)))
  }
  return visits
}

/** The day on which it was built: pump and line went in, and both meters stood at nothing. */
export function commissioned({ place, installedOn }: WellLife): Visit {
  return visit(installedOn, 'Maren', [
    {
      kind: 'service-done',
      duties: [slug('Fit pump and line')],
      names: ['Fit pump and line'],
      parts: partsAtFirst(place.solar),
    },
    { kind: 'meter-reading', meter: 'hours', reading: typed(0, 'h', 0), explained: null },
    { kind: 'meter-reading', meter: 'volume', reading: typed(0, 'gal', 0), explained: null },
  ])
}

/** Somebody opens the bypass before the drop is more. */
const MOST_DROP_PSI = 30

function visitOn(life: WellLife, state: State, on: Day, dice: Dice, weather: Weather): Visit {
  const { nature, story, end } = life
  const flow = flowAt(nature, story, on, end) * (1 + 0.03 * wobble(dice))
  const ran = hoursBetween(nature, state.at, daysBetween(state.at, on))
  state.hours += ran
  state.gallons += ran * 60 * flow
  state.sinceCartridge += ran * 60 * flow
  state.brushIn -= (ran / 1000) * nature.brushWear * (1 + 0.1 * wobble(dice))
  state.at = on

  const rest = staticAt(nature, story, on, end, weather) + 0.03 * wobble(dice)
  const drawdown =
    (flow / capacityAt(nature, story, on, end, life.rehabilitatedOn)) * (1 + 0.04 * wobble(dice))
  const drop = Math.min(MOST_DROP_PSI, nature.cleanDropPsi * 2 ** (state.sinceCartridge / nature.doublingGal))
  const facts: Fact[] = [
    { kind: 'level-reading', level: typed(rest, 'ft', 2), state: 'rest' },
    { kind: 'level-reading', level: typed(rest + drawdown, 'ft', 2), state: 'pumping' },
    {
      kind: 'flow-reading',
      flow: typed(flow, 'gal/min', 1),
      pumped: typed(pick(dice, [30, 45, 60]), 'min', 0),
    },
    { kind: 'meter-reading', meter: 'hours', reading: typed(state.hours, 'h', 0), explained: null },
    { kind: 'meter-reading', meter: 'volume', reading: typed(state.gallons, 'gal', 0), explained: null },
    { kind: 'pressure-reading', before: typed(38 + drop, 'psi', 1), after: typed(38, 'psi', 1) },
  ]
  if (chance(dice, 0.4)) {
    facts.push({
      kind: 'electrical-reading',
      amps: typed(nature.amps * (1 + 0.02 * wobble(dice)), 'A', 1),
      volts: typed(life.place.solar ? between(dice, 46, 50) : between(dice, 228, 236), 'V', 0),
    })
  }
  facts.push(...workOn(life, state, on, drop, dice))
  return {
    on,
    time: chance(dice, 0.7)
      ? `${pick(dice, ['08', '09', '10', '11', '13', '14', '15'])}:${pick(dice, ['00', '15', '30', '45'])}`
      : null,
    by: pick(dice, CREW),
    facts,
  }
}

/** The duties done on a visit: those due, or nearly, and now and then one is put off. */
function workOn(life: WellLife, state: State, on: Day, drop: number, dice: Dice): Fact[] {
  const facts: Fact[] = []
  const done: DutyFields[] = []
  for (const duty of life.duties) {
    const since = daysBetween(state.done.get(duty.key) ?? life.installedOn, on)
    const dirty = duty.key === CARTRIDGE && drop > 13
    if (!dirty && since < (duty.everyMonths ?? 12) * 30.4 - 45) continue
    if (chance(dice, 0.12)) continue
    state.done.set(duty.key, on)
    if (duty.key !== REPLACE_BRUSHES) done.push(duty)
  }
  if (done.length === 0) return facts
  const parts: Extract<Fact, { kind: 'service-done' }>['parts'] = []
  if (done.some((duty) => duty.key === CARTRIDGE)) {
    parts.push({ part: 'cartridge', model: CARTRIDGES[life.place.solar ? 'sun' : 'mains'], count: 1 })
    parts.push({ part: 'o-rings', model: 'housing, 4 in', count: 1 })
    state.sinceCartridge = 0
  }
  if (done.some((duty) => duty.key === BRUSHES)) {
    facts.push({
      kind: 'brush-length',
      lengths: [typed(state.brushIn, 'in', 2), typed(state.brushIn - 0.01, 'in', 2)],
    })
    if (state.brushIn < 0.38) {
      parts.push({ part: 'brushes', model: 'brush set BS-24', count: 1 })
      facts.push({ kind: 'event', event: 'brushes-changed' })
      done.push(...life.duties.filter(({ key }) => key === REPLACE_BRUSHES))
      state.brushIn = 0.75
    }
  }
  facts.unshift({
    kind: 'service-done',
    duties: done.map((d) => d.key),
    names: done.map((d) => d.name),
    parts,
  })
  return facts
}

const CARTRIDGE = slug('Change sediment cartridge')
const BRUSHES = slug('Check motor brushes')
export const REPLACE_BRUSHES = slug('Replace motor brushes')

function isClosed(place: Place, on: Day): boolean {
  if (!place.closed) return false
  const day = on.slice(5)
  const { from, to } = place.closed
  return from <= to ? day >= from && day <= to : day >= from || day <= to
}

/** A visit outside the ordinary round, whose hour nobody wrote down. */
export function visit(on: Day, by: string, facts: Fact[]): Visit {
  return { on, time: null, by, facts }
}
