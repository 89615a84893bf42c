import { dayFor, formatQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'
import { describeOwnerFact } from './describe-owner'
import { describePlace } from './describe-place'
import { describeWaterStep } from './describe-water'
import type { Fact } from './kinds'

type FactOf<K extends Fact['kind']> = Extract<Fact, { kind: K }>

/**
 * One line of the logbook as a plain sentence, with quantities in the reader's units.
 *
 * Says what was written and nothing more: no verdict, no reckoning beyond the difference of two pressures.
 * Ends with a full stop, except a note, whose text is its own.
 */
export function describeFact(fact: Fact, system: UnitSystem): string {
  const show = (si: number, use: Use) => formatQuantity(si, use, system)
  switch (fact.kind) {
    case 'service-done':
      return describeService(fact)
    case 'meter-reading':
      return describeMeter(fact, show)
    case 'level-reading':
      return `Water level ${fact.state === 'rest' ? 'at rest' : 'while pumping'} ${depth(fact.level.si, show)}.`
    case 'flow-reading':
      return `Flow ${show(fact.flow.si, 'flow')}${fact.pumped ? ` after ${show(fact.pumped.si, 'minutes')} of pumping` : ''}.`
    case 'pressure-reading':
      return describePressure(fact, show)
    case 'valve-test':
      return `Check valve test: ${show(fact.before.si, 'pressure')} at once and ${show(fact.after.si, 'pressure')} after ${show(fact.held.si, 'minutes')}.`
    case 'brush-length':
      return `${fact.lengths.length === 1 ? 'Brush length' : 'Brush lengths'} ${listed(fact.lengths.map((l) => show(l.si, 'brush')))}.`
    case 'electrical-reading':
      return describeElectrical(fact, show)
    case 'recovery-test':
      return `Recovery test: ${describeReadings(fact, show)}.`
    case 'drawdown-test':
      return `Drawdown test at ${show(fact.flow.si, 'flow')}: ${describeReadings(fact, show)}.`
    case 'step-test':
      return describeSteps(fact, show)
    case 'sample':
      return describeSample(fact, system)
    case 'sanitary-inspection':
      return describeInspection(fact)
    case 'water-step':
      return describeWaterStep(fact, show)
    case 'place-measured':
      return describePlace(fact, system)
    case 'event':
      return describeEvent(fact, show)
    case 'note':
      return fact.text
    case 'tank-level':
    case 'visit-request':
    case 'visit-answer':
    case 'confirmation':
    case 'owner-answer':
      return describeOwnerFact(fact, system)
  }
}

type Show = (si: number, use: Use) => string

/** "a", "a and b", "a, b and c". */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? ''
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`
}

function describeService({ duties, names, parts }: FactOf<'service-done'>): string {
  const done = duties.map((key, index) => names[index] ?? key.replace(/-/g, ' '))
  const fitted = parts.map(({ part, model, count, warrantyMonths }) => {
    const what = count === 1 ? part : `${count} × ${part}`
    const more = [
      ...(model ? [model] : []),
      ...(warrantyMonths ? [`${warrantyMonths} months of warranty`] : []),
    ]
    return more.length > 0 ? `${what} (${more.join(', ')})` : what
  })
  return `Done: ${done.join('; ')}.${fitted.length > 0 ? ` Fitted: ${listed(fitted)}.` : ''}`
}

const METERS = { hours: 'Hour meter', volume: 'Volume meter' } as const

const EXPLAINED = {
  replaced: 'the meter had been replaced',
  'rolled-over': 'the meter had passed its last figure and begun again',
  kept: 'asked about and kept as read',
} as const

function describeMeter({ meter, reading, explained }: FactOf<'meter-reading'>, show: Show): string {
  const why = explained === null ? '' : ` (${EXPLAINED[explained]})`
  return `${METERS[meter]} read ${meterValue(reading.si, meter, show)}${why}.`
}

function meterValue(si: number, meter: 'hours' | 'volume', show: Show): string {
  return meter === 'hours' ? show(si, 'hours') : show(si, 'tank')
}

function depth(levelM: number, show: Show): string {
  return levelM < 0
    ? `${show(-levelM, 'depth')} above the measuring point`
    : `${show(levelM, 'depth')} below the measuring point`
}

function describePressure({ before, after, cartridge }: FactOf<'pressure-reading'>, show: Show): string {
  const at = (si: number) => show(si, 'pressure')
  if (before && after) {
    const change = before.si - after.si
    const moved = change < 0 ? `a rise of ${at(-change)}` : `a drop of ${at(change)}`
    const words = cartridge ? `${moved} across the ${cartridge} one` : moved
    return `Pressure ${at(before.si)} before the cartridge and ${at(after.si)} after it, ${words}.`
  }
  if (before) return `Pressure ${at(before.si)} before the cartridge.`
  return after ? `Pressure ${at(after.si)} after the cartridge.` : 'Pressure not read.'
}

function describeElectrical({ amps, volts }: FactOf<'electrical-reading'>, show: Show): string {
  if (!amps) return `Supply at the pump ${volts ? show(volts.si, 'voltage') : 'not read'}.`
  return `Pump drew ${show(amps.si, 'current')}${volts ? ` at ${show(volts.si, 'voltage')}` : ''}.`
}

function describeReadings(test: FactOf<'recovery-test'> | FactOf<'drawdown-test'>, show: Show): string {
  const inTime = [...test.readings].sort((a, b) => a.elapsed.si - b.elapsed.si)
  const first = inTime[0]
  const last = inTime.at(-1)
  if (!first || !last) return 'no readings'
  const levels =
    inTime.length === 1
      ? `one reading, ${show(first.level.si, 'depth')} after ${show(first.elapsed.si, 'minutes')}`
      : `${inTime.length} readings over ${show(last.elapsed.si, 'minutes')}, from ${show(first.level.si, 'depth')} to ${show(last.level.si, 'depth')}`
  return `${levels}${test.static ? `; static level ${show(test.static.si, 'depth')}` : ''}`
}

function describeSteps({ steps, static: rest }: FactOf<'step-test'>, show: Show): string {
  const each = steps.map(
    (step) =>
      `${show(step.flow.si, 'flow')} for ${show(step.duration.si, 'minutes')} to ${show(step.level.si, 'depth')}`,
  )
  return `Step test: ${each.join('; ')}${rest ? `; static level ${show(rest.si, 'depth')}` : ''}.`
}

/** More results than this are counted, not listed: the sheet itself is shown elsewhere. */
const RESULTS_LISTED = 6

function describeSample(sample: FactOf<'sample'>, system: UnitSystem): string {
  const day = sample.sampledAt.slice(0, 10)
  const where = [
    /^\d{4}-\d{2}-\d{2}$/.test(day) ? `of ${dayFor(day, system)}` : `of ${sample.sampledAt}`,
    ...(sample.point ? [`at ${sample.point}`] : []),
    ...(sample.lab ? [`tested by ${sample.lab}`] : []),
  ]
  const results = sample.results.slice(0, RESULTS_LISTED).map(({ analyte, result, unit }) => {
    return `${analyte} ${result === '' ? 'no result written' : result}${result !== '' && unit ? ` ${unit}` : ''}`
  })
  const more = sample.results.length - results.length
  return `Water sample ${where.join(', ')}: ${results.join('; ')}${more > 0 ? `; and ${more} more` : ''}.`
}

function describeInspection({ form, answers }: FactOf<'sanitary-inspection'>): string {
  const all = Object.values(answers)
  const risks = all.filter((answer) => answer === 'yes').length
  const unseen = all.filter((answer) => answer === 'not-sure').length
  const rest = unseen > 0 ? `, ${unseen} not sure` : ''
  return `Sanitary inspection (${form}): ${risks} of ${all.length} questions show a risk${rest}.`
}

/** What happened, as words on screen. */
export const EVENT_WORDS: Record<FactOf<'event'>['event'], string> = {
  rehabilitated: 'Well rehabilitated',
  rebuilt: 'Well rebuilt',
  'pump-replaced': 'Pump replaced',
  'meter-replaced': 'Meter replaced',
  'cartridge-changed': 'Cartridge changed',
  'brushes-changed': 'Brushes changed',
  flooded: 'Well flooded',
  'iron-bloom': 'Iron bloom: the water ran red',
  'ran-dry': 'Ran dry',
  'prime-lost': 'Prime lost',
  found: 'Head found',
  'not-found': 'Head not found',
  'no-access': 'No access',
}

function describeEvent({ event, meter, oldReading, newReading }: FactOf<'event'>, show: Show): string {
  if (event !== 'meter-replaced') return `${EVENT_WORDS[event]}.`
  const what = meter ? `${METERS[meter]} replaced` : EVENT_WORDS[event]
  const readings = meter
    ? [
        ...(oldReading ? [`the old one read ${meterValue(oldReading.si, meter, show)}`] : []),
        ...(newReading ? [`the new one begins at ${meterValue(newReading.si, meter, show)}`] : []),
      ]
    : []
  return `${what}${readings.length > 0 ? `: ${listed(readings)}` : ''}.`
}
