/**
 * What the water puts on the due list: tests that are due, and the next step of an open chain. Where the well has an ordinary
 * duty that says the same ("Bacteria sample"), there is one item and not two: the earlier date wins and its reason says why.
 */
import type { Day } from '@/lib/domain/quantity/day'
import { moveOutOfSeason } from '@/lib/domain/upkeep/closed-season'
import type { ClosedSeason, DutyStanding } from '@/lib/domain/upkeep/types'
import { asSentence, sayDay } from '@/lib/domain/upkeep/words'
import type { WaterStanding } from '@/lib/domain/water/appraise'
import type { Chain } from '@/lib/domain/water/chain'
import type { SampledGroup, TestDuty } from '@/lib/domain/water/sampling'

/** A dated item as the due list shows it. */
export type WaterItem = Omit<DutyStanding, 'limits'>

/** Words in the key of an ordinary duty that make it a test of a group; "water-test" alone is the yearly pair. */
const SAYS_THE_SAME: readonly [RegExp, readonly SampledGroup[]][] = [
  [/bacteria|coliform/, ['bacteria']],
  [/nitrate/, ['nitrate']],
  [/panel|metals/, ['metals']],
  [/^(?:yearly-|annual-)?water-(?:test|sample|analysis)$/, ['bacteria', 'nitrate']],
]

/** The groups of tests an ordinary duty is about; none where it is no test of the water. */
export function groupsOfDuty(key: string): SampledGroup[] {
  return [...new Set(SAYS_THE_SAME.flatMap(([pattern, groups]) => (pattern.test(key) ? groups : [])))]
}

/** Whether an item of the due list ends in a lab sheet: an ordinary duty that is a test, or a test of the water itself. */
export function isSampling(key: string): boolean {
  if (key.startsWith(CHAIN_KEY)) return false
  return key.startsWith(TEST_KEY) || groupsOfDuty(key).length > 0
}

/** How the keys of items begin that no ordinary duty says: tests, and steps of chains. */
const TEST_KEY = 'water-test-'
const CHAIN_KEY = 'water-chain-'

/**
 * The last day on which everything an ordinary duty is about was tested, with results on record; null where it is no test,
 * or a part was never tested. A lab sheet counts as the work done, ticked or not.
 */
export function testedOn(key: string, water: WaterStanding): Day | null {
  const days = groupsOfDuty(key).map(
    (group) => water.duties.find((duty) => duty.group === group)?.lastOn ?? null,
  )
  return days.some((day) => day === null) ? null : ([...days].sort()[0] ?? null)
}

/** An ordinary duty with what the water says of it: brought forward where a test is due before it. */
export function withWater<D extends WaterItem>(duty: D, water: WaterStanding): D {
  const groups = groupsOfDuty(duty.key)
  const [first] = water.duties
    .filter((test) => groups.includes(test.group) && overrides(test, duty))
    .sort((a, b) => ((a.dueOn ?? '') < (b.dueOn ?? '') ? -1 : 1))
  if (!first?.dueOn) return duty
  return {
    ...duty,
    due: first.dueOn,
    from: first.dueOn,
    to: first.dueOn,
    basis: 'months',
    reason: `${testReason(first)}${unseenSheet(first, duty.lastDoneOn)}`,
  }
}

/** A test that is due before the duty; "no result on record" is no match for a day somebody wrote that it was done. */
function overrides(test: TestDuty, duty: WaterItem): boolean {
  if (test.dueOn === null || (duty.due !== null && test.dueOn >= duty.due)) return false
  return test.basis !== 'never-tested' || duty.lastDoneOn === null
}

function unseenSheet(test: TestDuty, lastDoneOn: Day | null): string {
  return lastDoneOn !== null && test.lastOn !== null && lastDoneOn > test.lastOn
    ? ` A sample was taken on ${sayDay(lastDoneOn)}; its sheet is not in the logbook yet.`
    : ''
}

const GROUP_WORDS: Readonly<Record<SampledGroup, string>> = {
  bacteria: 'bacteria',
  nitrate: 'nitrate',
  general: 'pH, hardness and dissolved solids',
  metals: 'metals',
  'radio-and-organics': 'uranium, radon and organics',
}

function testReason(test: TestDuty): string {
  const last =
    test.lastOn === null ? 'No usable result is on record.' : `Last result of ${sayDay(test.lastOn)}.`
  const why = test.basis === 'never-tested' ? '' : ` ${asSentence(test.why)}`
  return `Due ${test.dueOn === null ? 'now' : sayDay(test.dueOn)}.${why} ${last} Source: ${asSentence(test.source)}`
}

/**
 * Items of the water that no ordinary duty of the well says: one for all that was never tested, one for each test that is
 * due, one for the next step of each open chain. `key` is the same from one reckoning to the next.
 */
export function waterItems(
  water: WaterStanding,
  ordinary: readonly { key: string }[],
  closed: ClosedSeason | null,
): WaterItem[] {
  const said = new Set(ordinary.flatMap(({ key }) => groupsOfDuty(key)))
  const inChain = new Set(water.chains.filter((chain) => chain.closed === null).map((chain) => chain.key))
  const tests = water.duties.filter(({ group }) => !said.has(group) && !inChain.has(group))
  const never = tests.filter(({ lastOn, basis }) => lastOn === null && basis === 'never-tested')
  return [
    ...water.chains.filter((chain) => chain.closed === null).map(chainItem),
    ...(never.length > 0 ? [firstTest(never)] : []),
    ...tests.filter((test) => !never.includes(test)).map((test) => testItem(test, closed)),
  ]
}

function firstTest(tests: readonly TestDuty[]): WaterItem {
  const due = tests[0]?.dueOn ?? null
  const what = tests.map(({ group }) => GROUP_WORDS[group]).join(', ')
  return {
    key: 'water-first-test',
    name: 'First water test',
    ...health(due),
    reason: `No usable result is on record for ${what}${due === null ? ': test now' : `; the well was built on ${sayDay(due)}`}. What was not tested cannot be called fit to drink.`,
    lastDoneOn: null,
  }
}

function testItem(test: TestDuty, closed: ClosedSeason | null): WaterItem {
  const moved =
    test.basis === 'interval' && test.dueOn !== null && closed !== null
      ? moveOutOfSeason(test.dueOn, closed, test.lastOn).day
      : test.dueOn
  return {
    key: `${TEST_KEY}${test.group}`,
    name: `Water test: ${GROUP_WORDS[test.group]}`,
    ...health(moved),
    ...(moved === test.dueOn ? {} : { basis: 'closed-season' as const }),
    reason: testReason(test),
    lastDoneOn: test.lastOn,
  }
}

/** The next step is due since the positive; a sample again from the first day on which it counts. */
function chainItem(chain: Chain): WaterItem {
  const next = chain.steps.find(({ state }) => state === 'next')
  const due = next?.earliest ?? chain.positives.at(-1)?.on ?? chain.opened.on
  return {
    key: `${CHAIN_KEY}${chain.key}`,
    name: `${chain.name}: next step of the open chain`,
    ...health(due),
    reason: `${next?.text ?? 'Sample again.'} Open since ${sayDay(chain.opened.on)}.`,
    lastDoneOn: null,
  }
}

function health(due: Day | null) {
  return {
    consequence: 'health' as const,
    due,
    from: due,
    to: due,
    basis: due === null ? null : ('months' as const),
  }
}
