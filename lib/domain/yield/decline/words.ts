import { type Day, formatDay } from '@/lib/domain/quantity/day'
import type { YieldEvidence, YieldStanding } from './types'
import type { Verdict } from './verdict'

type Told = {
  verdict: Verdict
  evidence: YieldEvidence
  baselineSince: Day
  tests: number
  rehabilitated: boolean
}

/** What was seen and how sure, in a sentence or two for a person. */
export function sentenceOf(told: Told): string {
  const { evidence } = told
  const since = formatDay(told.baselineSince, 'short', 'en-GB')
  const mended = evidence.mended + evidence.leftOut
  const aside =
    mended > 0
      ? ` ${plural(mended, 'reading')} with a plain slip ${mended === 1 ? 'was' : 'were'} mended or left out.`
      : ''
  return `${bodyOf(told, since)}${OWN_WORDS[told.verdict.pumpOwn ?? 'silent']}${aside}`
}

const OWN_WORDS = {
  worn: ' Held against itself when new, at one head and voltage, the pump gives less.',
  sound: ' Held against itself when new, at one head and voltage, the pump gives what it did.',
  silent: '',
}

function bodyOf({ verdict, evidence, tests, rehabilitated }: Told, since: string): string {
  switch (verdict.supports) {
    case 'too-little':
      return `Too few readings to say anything about a trend: ${plural(tests, 'test')} since ${since}.`
    case 'flow-only':
      return flowBody(evidence)
    case 'statics-only':
      return `Only static levels were read often enough: the water table ${fallOf(evidence)}. Of the well itself nothing can be said.`
    case 'drawdown-only':
      return `Levels were read without flow: a change of drawdown can be the pump or the well. The water table ${fallOf(evidence)}.`
    case 'capacity':
      return capacityBody(verdict, evidence, since, rehabilitated)
  }
}

/** A flow that holds shows nothing amiss; one that moved can have any of three causes. */
function flowBody({ flowChange }: YieldEvidence): string {
  const moved = movedBy(flowChange, '')
  return moved === ''
    ? 'Only flow was read, and it holds. Of the well itself and the water table nothing more can be said.'
    : `Only flow was read: it is ${moved}, which can be the pump, the water table or the well.`
}

function capacityBody(
  verdict: Verdict,
  evidence: YieldEvidence,
  since: string,
  rehabilitated: boolean,
): string {
  const sure = sureness(verdict)
  const again = rehabilitated ? ' after the rehabilitation' : ''
  switch (verdict.cause) {
    case 'well':
      return `The well itself ${verdict.flag ? 'is' : 'may be'} losing capacity${again}: ${movedBy(evidence.capacityChange, 'about level')} since ${since} at the same static level and pumping time (${sure}). The water table ${fallOf(evidence)}.`
    case 'water-table':
      return `The water table ${fallOf(evidence)}; at the same static level the well gives what it did (${sure}).`
    case 'pump':
      return `The pump gives less, ${movedBy(evidence.flowChange, 'about level')}, and draws the water down less with it; the well holds its capacity (${sure}).`
    case 'steady':
      return `Capacity holds since ${since} once season, static level and pumping time are taken out (${sure}).`
    case 'unclear':
      return `The readings since ${since} do not yet tell a loss in the well from season, water table or pump.`
  }
}

function sureness(verdict: Verdict): string {
  const by = {
    well: verdict.chance.well,
    pump: verdict.chance.pump,
    'water-table': verdict.chance.waterTable,
    steady: verdict.chance.steady,
    unclear: 0,
  }
  const chance = by[verdict.cause]
  if (chance > 0.99) return 'practically certain'
  return `${Math.round(100 * chance)} % likely`
}

function movedBy(change: number | null, still: string): string {
  if (change === null || Math.abs(change) < 0.01) return still
  return `${change < 0 ? 'down' : 'up'} ${Math.round(100 * Math.abs(change))} %`
}

function fallOf(evidence: YieldEvidence): string {
  const falls =
    evidence.staticFallM !== null && evidence.staticFallM > 0.1 && evidence.chance.waterTable > 0.5
  const perYear = evidence.staticFallMPerYear
  if (!falls || evidence.staticFallM === null || perYear === null)
    return 'shows no fall beyond season and weather'
  return `has fallen ${evidence.staticFallM.toFixed(1)} m beyond season and weather (about ${perYear.toFixed(2)} m a year)`
}

/** What to measure or do next, so that the next visit answers what is open. */
export function nextOf(verdict: Verdict, tests: number, need: number): string {
  switch (verdict.supports) {
    case 'too-little':
      return `Read static level, pumping level and flow at each visit; ${Math.max(1, need - tests)} more such tests are needed before a trend can be told.`
    case 'flow-only':
      return 'Read the static level before pumping and the pumping level before stopping: without them a weak pump and a clogging well look the same.'
    case 'statics-only':
      return 'Add a pumping level and the flow at the end of pumping, to see the well and not only the water table.'
    case 'drawdown-only':
      return 'Time the flow into a bucket at the end of pumping: drawdown alone cannot tell pump from well.'
    case 'capacity':
      return nextForCause(verdict)
  }
}

function nextForCause(verdict: Verdict): string {
  switch (verdict.cause) {
    case 'well':
      return verdict.flag
        ? 'Confirm with a recovery test at the usual flow, look for iron slime or fines, and plan a rehabilitation.'
        : 'Repeat the test within two months, same pumping time, and time the flow twice.'
    case 'water-table':
      return 'Read the static level monthly through the dry season and compare with a neighbouring well; check lift and intake depth.'
    case 'pump':
      return 'Check amps, strainer, check valve and drop pipe, and time the flow at a known lift.'
    case 'steady':
      return 'Keep to one test each season: same pumping time, static level first.'
    case 'unclear':
      return 'Test once more in the same season as the first tests, same pumping time, and time the flow twice.'
  }
}

/** Why there is a date, or why there is none. */
export function outlookWhy(
  standing: Pick<YieldStanding, 'flag'> & { dated: boolean; open: boolean },
  verdict: Verdict,
): string {
  if (verdict.supports === 'too-little') return 'No date: too few readings for a trend.'
  if (verdict.supports !== 'capacity') return 'No date: the readings do not show the capacity of the well.'
  if (!standing.dated) return 'No date: a loss of capacity is not established.'
  return standing.open
    ? 'The loss is established, how fast it goes on is not: one end of the interval is open.'
    : 'The loss is carried forward at the rates and shapes that explain the readings; 8 times in 10 the day lies inside the interval.'
}

function plural(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`
}
