import type { Fact } from '@/lib/domain/logbook/kinds'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import { typed } from './quantities'
import { clear, positive, sampledDuties, sampleFact } from './samples'
import { type Visit, visit, type WellLife } from './visits'

type Result = Extract<Fact, { kind: 'sample' }>['results'][number]

/** Days from the end of the fleet's years, and the lines written on them. */
const on = (life: WellLife, n: number): Day => addDays(life.end, n)

function sampled(life: WellLife, n: number, time: string, id: string, results: Result[]): Visit {
  return visit(on(life, n), 'Maren', [sampleFact(on(life, n), time, id, results), sampledDuties()])
}

const told = (to: string, notice: 'boil' | 'do-not-drink', chain: string): Fact => ({
  kind: 'water-step',
  step: 'notice',
  notice,
  to,
  how: 'on paper, posted at the tap',
  chain,
})

/** Well, lines and tank dosed for a day, as strong as a proper disinfection is. */
const disinfected: Fact = {
  kind: 'water-step',
  step: 'disinfected',
  targetMgL: 100,
  product: 'plain bleach',
  strengthPercent: 8.25,
  volume: typed(2.1, 'L', 1),
  contact: typed(24, 'h', 0),
}

const flushed: Fact = {
  kind: 'water-step',
  step: 'flushed',
  chlorineGone: 'yes',
  where: 'to the meadow, away from the stream',
}

function dosed(life: WellLife, n: number): Visit[] {
  return [
    visit(on(life, n), 'Joss', [
      { kind: 'service-done', duties: ['disinfection'], names: ['Disinfection'], parts: [] },
      disinfected,
      { kind: 'note', text: 'Filter and softener bypassed.' },
    ]),
    visit(on(life, n + 1), 'Joss', [flushed]),
  ]
}

/** The flood of two springs ago: positive, disinfected, one more positive where the cap leaked, and two clear samples. */
export function flood(life: WellLife, twice: boolean): Visit[] {
  const again = [
    sampled(life, -571, '10:10', 'FL-2', positive('12.1')),
    visit(on(life, -569), 'Joss', [
      {
        kind: 'water-step',
        step: 'well-repaired',
        what: 'New gasket and screened vent in the cap; soil banked up.',
      },
    ]),
    ...dosed(life, -568),
  ]
  return [
    visit(on(life, -596), 'Maren', [
      { kind: 'event', event: 'flooded' },
      { kind: 'note', text: 'River over the meadow; cap under water for two days.' },
    ]),
    sampled(life, -589, '10:10', 'FL-1', positive('410.6')),
    visit(on(life, -588), 'Maren', [told('the whole campground', 'boil', 'bacteria')]),
    ...dosed(life, -585),
    ...(twice ? again : []),
    sampled(life, -553, '09:50', 'FL-3', clear()),
    sampled(life, -539, '09:50', 'FL-4', clear()),
  ]
}

/** A positive of this autumn: told, disinfected, flushed, one clear sample; the second is still to come. */
export function openBacteria(life: WellLife): Visit[] {
  return [
    sampled(life, -31, '10:20', 'WH-1', positive('18.9')),
    visit(on(life, -30), 'Maren', [told('Ines Caldeira', 'boil', 'bacteria')]),
    ...dosed(life, -26),
    sampled(life, -9, '09:30', 'WH-2', clear()),
  ]
}

/** Nitrate above its limit on a farm: the household is told, and nothing has been done about it yet. */
export function openNitrate(life: WellLife): Visit[] {
  const result: Result = { analyte: 'Nitrate as N', result: '12.4', unit: 'mg/L', reportingLimit: '0.5' }
  return [
    sampled(life, -40, '09:45', 'KH-1', [...clear(), result]),
    visit(on(life, -37), 'Maren', [told('Kestrel Farm, house and bunkhouse', 'do-not-drink', 'nitrate')]),
  ]
}
