import type { Fact } from '@/lib/domain/logbook/kinds'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import { between, chance, type Dice } from './dice'
import type { Story } from './valley'
import type { Visit, WellLife } from './visits'

const LAB = 'Sorrel County Laboratory (invented)'

type Result = Extract<Fact, { kind: 'sample' }>['results'][number]

/** A lab sheet with bacteria and nitrate, and every third year metals too. */
export function sampleFact(on: Day, time: string, id: string, results: Result[]): Fact {
  return {
    kind: 'sample',
    sampledAt: `${on}T${time}`,
    receivedAt: `${on}T15:20`,
    lab: LAB,
    sampleId: id,
    point: 'kitchen tap',
    results,
  }
}

export const clear = (): Result[] => [
  { analyte: 'Total coliform', result: 'Absent', method: 'presence/absence, 100 mL' },
  { analyte: 'E. coli', result: 'Absent', method: 'presence/absence, 100 mL' },
]

export const positive = (count: string): Result[] => [
  { analyte: 'Total coliform', result: count, unit: 'MPN/100 mL', reportingLimit: '1' },
  { analyte: 'E. coli', result: '4.1', unit: 'MPN/100 mL', reportingLimit: '1' },
]

/** The samples of a well's years, with what its story makes of them. */
export function samplesOf(life: WellLife, name: string, dice: Dice): Visit[] {
  const last: Partial<Record<Story, Day>> = {
    'lapsed-owner': addDays(life.end, -820),
    'open-bacteria': addDays(life.end, -60),
    'open-nitrate': addDays(life.end, -60),
  }
  const until = (life.story && last[life.story]) || life.end
  const visits = yearlySamples(dice, life.installedOn, until, name, life.place.area === 'Red Clay Lane')
  if (life.story === 'never-tested') return []
  return life.story === 'late-sample' ? withLateLast(visits) : visits
}

/** The last box of bottles stood in the shed over the weekend: too old on arrival to say anything of bacteria. */
function withLateLast(visits: readonly Visit[]): Visit[] {
  const last = visits.at(-1)
  return visits.map((one) =>
    one === last
      ? {
          ...one,
          facts: one.facts.map((fact) =>
            fact.kind === 'sample' ? { ...fact, receivedAt: `${addDays(one.on, 3)}T08:15` } : fact,
          ),
        }
      : one,
  )
}

/** One sample a year, as the outfit takes them: some years with a wider sheet. */
function yearlySamples(dice: Dice, installedOn: Day, last: Day, label: string, iron: boolean): Visit[] {
  const visits: Visit[] = []
  const nitrate = between(dice, 0.3, 4.5)
  let on = addDays(installedOn, Math.round(between(dice, 20, 60)))
  for (let year = 0; on <= last; year += 1) {
    const results = [...clear(), nitrateResult(dice, nitrate)]
    if (year % 3 === 0) {
      results.push(
        { analyte: 'Arsenic', result: '<1', unit: 'µg/L', reportingLimit: '1' },
        {
          analyte: 'Iron',
          result: (iron ? between(dice, 0.9, 2.2) : between(dice, 0.05, 0.2)).toFixed(2),
          unit: 'mg/L',
        },
        { analyte: 'Manganese', result: iron ? '0.09' : '<0.01', unit: 'mg/L', reportingLimit: '0.01' },
        { analyte: 'pH', result: between(dice, 6.6, 7.6).toFixed(1) },
      )
    }
    const fact = sampleFact(
      on,
      '09:40',
      `${label.slice(0, 3).toUpperCase()}-${on.slice(2, 4)}${year}`,
      results,
    )
    visits.push({ on, time: '09:40', by: 'Maren', facts: [fact, sampledDuties()] })
    on = addDays(on, Math.round(between(dice, 340, 400)))
  }
  return visits
}

export function sampledDuties(): Fact {
  return {
    kind: 'service-done',
    duties: ['bacteria-sample', 'nitrate-sample'],
    names: ['Bacteria sample', 'Nitrate sample'],
    parts: [],
  }
}

function nitrateResult(dice: Dice, level: number): Result {
  const value = level * between(dice, 0.85, 1.2)
  return value < 0.5 && chance(dice, 0.6)
    ? { analyte: 'Nitrate as N', result: '<0.5', unit: 'mg/L', reportingLimit: '0.5' }
    : { analyte: 'Nitrate as N', result: value.toFixed(1), unit: 'mg/L', reportingLimit: '0.5' }
}
