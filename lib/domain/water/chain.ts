/**
 * The chain after a positive: notice, disinfect, flush, wait, sample again until the required clear samples, or until a named
 * person closes it with a reason. The state is reckoned from dated facts, never kept by hand, and holds no clock.
 */
import { addDays, type Day, daysBetween, formatDay } from '@/lib/domain/quantity/day'
import { type ChainKey, chainName, type Mark } from './chain-marks'
import type { WaterEvent } from './events'
import { type Fault, type FaultRules, faultOf } from './fault'
import { type NoticeKind, noticeCovers, noticeKind } from './notice'

export type ChainRules = FaultRules & {
  /** Days of normal use after disinfection before a sample counts (5: Hickory UWCD after US CDC). */
  waitDays: number
  /** Clear samples that close a chain, and the days between them (two, a week apart: recalled from Ontario, memory). */
  clearNeeded: number
  clearApartDays: number
}

export const CHAIN_RULES: ChainRules = {
  waitDays: 5,
  clearNeeded: 2,
  clearApartDays: 7,
  repeatMonths: 12,
  properTargetMgL: 50,
  properContactHours: 12,
}

export type StepName = 'notice' | 'disinfect' | 'remedy' | 'flush' | 'wait' | 'resample'
export type Step = {
  step: StepName
  state: 'done' | 'next' | 'later'
  on: Day | null
  earliest: Day | null
  text: string
}

export type Chain = {
  key: ChainKey
  name: string
  opened: { on: Day; sampleId: string; analytes: readonly string[] }
  /** All samples that were positive while it was open, the first one included. */
  positives: readonly { on: Day; sampleId: string }[]
  clear: readonly { on: Day; sampleId: string }[]
  clearNeeded: number
  /** The notice the household must have while it is open. */
  notice: NoticeKind
  steps: readonly Step[]
  /** The first day on which a clear sample counts; null where something must be done first. */
  earliestResample: Day | null
  fault: Fault | null
  closed: null | { on: Day; how: 'clear-samples' } | { on: Day; how: 'person'; by: string; reason: string }
}

type Open = {
  key: ChainKey
  opened: Chain['opened']
  positives: { on: Day; sampleId: string }[]
  clear: { on: Day; sampleId: string }[]
  noticeOn: Day | null
  actedOn: Day | null
  flushedOn: Day | null
  /** The last flush since the disinfection still found chlorine. */
  chlorineLeft: boolean
  fault: Fault | null
  closed: Chain['closed']
}

type Happening = { on: Day; order: number; mark?: Mark; event?: WaterEvent }

/**
 * All chains of a well, oldest first, open and closed. Samples are taken before anything else done on the same day.
 * `marks` in any order; `events` in any order.
 */
export function chainsOf(marks: readonly Mark[], events: readonly WaterEvent[], rules: ChainRules): Chain[] {
  const happenings: Happening[] = [
    ...marks.map((mark) => ({ on: mark.on, order: mark.state === 'clear' ? 0 : 1, mark })),
    ...events.map((event) => ({ on: event.on, order: event.kind === 'chain-closed' ? 3 : 2, event })),
  ].sort((a, b) => (a.on === b.on ? a.order - b.order : a.on < b.on ? -1 : 1))
  const chains: Open[] = []
  for (const { mark, event } of happenings) {
    if (mark) takeMark(chains, mark, events, rules)
    if (event) takeEvent(chains, event)
  }
  return chains.map((chain) => show(chain, rules))
}

function takeMark(chains: Open[], mark: Mark, events: readonly WaterEvent[], rules: ChainRules): void {
  const open = chains.find((chain) => chain.key === mark.chain && chain.closed === null)
  const at = { on: mark.on, sampleId: mark.sampleId }
  if (mark.state === 'positive') takePositive(chains, open, mark, events, rules)
  else if (open && counts(open, mark, rules)) {
    open.clear.push(at)
    if (open.clear.length >= rules.clearNeeded) open.closed = { on: mark.on, how: 'clear-samples' }
  }
}

function takePositive(
  chains: Open[],
  open: Open | undefined,
  mark: Mark,
  events: readonly WaterEvent[],
  rules: ChainRules,
): void {
  const fault = mark.chain === 'bacteria' ? faultOf(mark.on, events, rules) : null
  const at = { on: mark.on, sampleId: mark.sampleId }
  if (!open) {
    chains.push({
      key: mark.chain,
      opened: { ...at, analytes: mark.analytes },
      positives: [at],
      clear: [],
      noticeOn: null,
      actedOn: null,
      flushedOn: null,
      chlorineLeft: false,
      fault,
      closed: null,
    })
    return
  }
  open.positives.push(at)
  open.clear = []
  open.actedOn = null
  open.flushedOn = null
  open.fault = fault ?? open.fault
}

/** A clear sample counts after the wait, apart from the last one that counted, and without chlorine that was still found. */
function counts(open: Open, { on, chlorineFree }: Mark, rules: ChainRules): boolean {
  if (open.chlorineLeft && !chlorineFree) return false
  const last = open.clear.at(-1)
  if (last && daysBetween(last.on, on) < rules.clearApartDays) return false
  return open.actedOn === null || open.key !== 'bacteria' || on >= addDays(open.actedOn, rules.waitDays)
}

function takeEvent(chains: Open[], event: WaterEvent): void {
  for (const chain of chains) {
    if (chain.closed !== null) continue
    if ('chain' in event && event.chain !== undefined && event.chain !== chain.key) continue
    if (event.kind === 'notice') takeNotice(chain, event.on, event.notice)
    else if (event.kind === 'disinfected' && chain.key === 'bacteria') disinfected(chain, event.on)
    else if (event.kind === 'flushed' && chain.key === 'bacteria') flushed(chain, event)
    else if (event.kind === 'remedied' && chain.key !== 'bacteria') disinfected(chain, event.on)
    else if (event.kind === 'well-repaired') chain.fault = null
    else if (event.kind === 'chain-closed' && event.by.trim() !== '' && event.reason.trim() !== '')
      chain.closed = { on: event.on, how: 'person', by: event.by, reason: event.reason }
  }
}

/** A notice that says less than the chain calls for (boil, where there is nitrate) is no notice. */
function takeNotice(chain: Open, on: Day, notice: NoticeKind | undefined): void {
  if (notice === undefined || noticeCovers(notice, chain.key)) chain.noticeOn ??= on
}

function flushed(chain: Open, { on, chlorineGone }: Extract<WaterEvent, { kind: 'flushed' }>): void {
  chain.chlorineLeft = chlorineGone === false
  if (!chain.chlorineLeft) chain.flushedOn = on
}

function disinfected(chain: Open, on: Day): void {
  chain.actedOn = on
  chain.flushedOn = null
  chain.chlorineLeft = false
  chain.clear = []
}

function show(chain: Open, rules: ChainRules): Chain {
  const steps = stepsOf(chain, rules)
  return {
    key: chain.key,
    name: chainName(chain.key),
    opened: chain.opened,
    positives: chain.positives,
    clear: chain.clear,
    clearNeeded: rules.clearNeeded,
    notice: noticeKind([chain.key]),
    steps,
    earliestResample: earliestResample(chain, rules),
    fault: chain.fault,
    closed: chain.closed,
  }
}

function earliestResample(chain: Open, rules: ChainRules): Day | null {
  const last = chain.clear.at(-1)
  if (last) return addDays(last.on, rules.clearApartDays)
  if (chain.actedOn === null) return null
  return chain.key === 'bacteria' ? addDays(chain.actedOn, rules.waitDays) : chain.actedOn
}

function stepsOf(chain: Open, rules: ChainRules): Step[] {
  const earliest = earliestResample(chain, rules)
  const notice = bare('notice', chain.noticeOn, NOTICE_STEP[noticeKind([chain.key])])
  const resample: Bare = {
    ...bare(
      'resample',
      chain.closed?.how === 'clear-samples' ? chain.closed.on : null,
      resampleText(chain, rules),
    ),
    earliest,
  }
  const middle: Bare[] =
    chain.key === 'bacteria'
      ? [
          bare('disinfect', chain.actedOn, disinfectText(chain)),
          bare(
            'flush',
            chain.flushedOn,
            'Flush the chlorine out through an outside tap, away from septic and streams.',
          ),
          {
            ...bare(
              'wait',
              chain.clear.length > 0 ? (chain.clear[0]?.on ?? null) : null,
              `Use the water as usual, without drinking it, for ${rules.waitDays} days${from(earliest)}.`,
            ),
            earliest,
          },
        ]
      : [bare('remedy', chain.actedOn, 'Find the cause; treat the water or use another source.')]
  return inOrder([notice, ...middle, resample], chain.closed !== null)
}

/** What to tell the household, by the notice the chain calls for. */
const NOTICE_STEP: Readonly<Record<NoticeKind, string>> = {
  inform: 'Tell everyone who drinks from the well what was found, in writing.',
  boil: 'Tell everyone who drinks from the well, in writing: boil the water first, or use bottled water.',
  'do-not-drink':
    'Tell everyone who drinks from the well, in writing: do not drink it, and do not boil it. Use bottled water.',
  'do-not-use': 'Tell everyone who uses the well, in writing: do not drink it, cook with it or wash in it.',
}

type Bare = Omit<Step, 'state'>

function bare(step: StepName, on: Day | null, text: string): Bare {
  return { step, on, earliest: null, text }
}

/** Done where it has a date; the first that has none is next; the rest are later. A closed chain has no next step. */
function inOrder(steps: readonly Bare[], closed: boolean): Step[] {
  const next = closed ? undefined : steps.find((each) => each.on === null)
  return steps.map((each) => ({
    ...each,
    state: each.on !== null ? 'done' : each === next ? 'next' : 'later',
  }))
}

const from = (earliest: Day | null): string =>
  earliest === null ? '' : `; sample again on ${formatDay(earliest, 'short', 'en-GB')} or later`

function disinfectText(chain: Open): string {
  return chain.fault === null
    ? 'Disinfect the well, the pipes and the tank.'
    : 'Find and mend the fault in the well first; disinfect after that.'
}

function resampleText(chain: Open, rules: ChainRules): string {
  const left = Math.max(0, rules.clearNeeded - chain.clear.length)
  const when =
    chain.clear.length === 0 ? '' : from(earliestResample(chain, rules)).replace('; sample again', ', taken')
  const apart = left > 1 ? `, ${rules.clearApartDays} days apart` : ''
  return `Sample again: ${left} more clear ${left === 1 ? 'sample' : 'samples'} needed${apart}${when}.`
}
