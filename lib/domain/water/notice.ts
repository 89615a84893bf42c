/**
 * The notice to a household: the right kind, and the ten elements of 40 CFR 141.205(a) adapted to a private well. A boil notice
 * is given for bacteria alone, never where nitrate, a metal or another substance is above its limit.
 */
import { type Day, formatDay } from '@/lib/domain/quantity/day'
import { findAnalyte } from './analytes'
import { CAUSES, type CauseWords, FAMILY_CAUSES, type NoticeKind, OTHER_CAUSE } from './tables/notices'

export type { NoticeKind } from './tables/notices'

/** The ten elements, in the order of 141.205(a)(1) to (10). */
export const NOTICE_ELEMENTS = [
  'found',
  'when',
  'effects',
  'atRisk',
  'otherWater',
  'whatToDo',
  'doing',
  'until',
  'contact',
  'passOn',
] as const
export type NoticeElement = (typeof NOTICE_ELEMENTS)[number]

/** One thing that was found: the key of its chain, its name, and the level and limit as they are to be printed. */
export type NoticeCause = { chain: string; name: string; level: string; limit: string }

export type NoticeFacts = {
  well: string
  causes: readonly NoticeCause[]
  sampledOn: Day
  /** What the owner or installer does about it; null takes the standing words for the chain. */
  doing: string | null
  /** The soonest day it can end, where it is known. */
  earliestEnd: Day | null
  clearNeeded: number
  contact: { name: string; phone: string; address: string }
  locale: 'en-US' | 'en-GB'
}

export type Notice =
  | {
      kind: NoticeKind
      title: string
      lead: string
      elements: Readonly<Record<NoticeElement, string>>
      text: string
    }
  | { kind: 'cannot-say'; need: readonly string[] }

const ORDER: readonly NoticeKind[] = ['inform', 'boil', 'do-not-drink', 'do-not-use']

/** The kind of notice for the chains that are open together: the strictest one. No chain: 'inform'. */
export function noticeKind(chains: readonly string[]): NoticeKind {
  return chains
    .map((chain) => wordsFor(chain).kind)
    .reduce<NoticeKind>((a, b) => (ORDER.indexOf(b) > ORDER.indexOf(a) ? b : a), 'inform')
}

/** Whether a notice of one kind says at least what a chain calls for: a boil notice never does for nitrate or a metal. */
export function noticeCovers(given: NoticeKind, chain: string): boolean {
  return ORDER.indexOf(given) >= ORDER.indexOf(noticeKind([chain]))
}

function wordsFor(chain: string): CauseWords {
  return CAUSES[chain] ?? FAMILY_CAUSES[findAnalyte(chain)?.family ?? ''] ?? OTHER_CAUSE
}

/** The notice. 'cannot-say' names what is missing: a cause, a level, whom to call. */
export function writeNotice(facts: NoticeFacts): Notice {
  const need = missing(facts)
  if (need.length > 0) return { kind: 'cannot-say', need }
  const kind = noticeKind(facts.causes.map((cause) => cause.chain))
  const elements = elementsOf(facts, kind)
  const title = TITLES[kind]
  const lead = LEADS[kind]
  const text = [title, lead, ...NOTICE_ELEMENTS.map((element) => elements[element])].join('\n\n')
  return { kind, title, lead, elements, text }
}

const TITLES: Readonly<Record<NoticeKind, string>> = {
  inform: 'About your water',
  boil: 'Boil your water before you drink it',
  'do-not-drink': 'Do not drink this water',
  'do-not-use': 'Do not use this water',
}

const LEADS: Readonly<Record<NoticeKind, string>> = {
  inform: 'Please read what was found in your well water.',
  boil: 'Germs were found in your well water. Boil it first, or use bottled water.',
  'do-not-drink': 'Use bottled water to drink and cook. Boiling does not help.',
  'do-not-use': 'Do not drink it, cook with it or wash in it. Boiling does not help.',
}

/** The heading and the first sentence of the notice that the open chains call for together, for banners. */
export function noticeHeading(chains: readonly string[]): { kind: NoticeKind; title: string; lead: string } {
  const kind = noticeKind(chains)
  return { kind, title: TITLES[kind], lead: LEADS[kind] }
}

function missing(facts: NoticeFacts): string[] {
  const need: string[] = []
  if (facts.causes.length === 0) need.push('what was found')
  if (facts.causes.some((cause) => cause.level.trim() === '')) need.push('the level that was found')
  if (facts.well.trim() === '') need.push('which well')
  if (facts.contact.name.trim() === '' || facts.contact.phone.trim() === '')
    need.push('a name and a phone number to call')
  return need
}

function elementsOf(facts: NoticeFacts, kind: NoticeKind): Record<NoticeElement, string> {
  const words = [...new Set(facts.causes.map((cause) => wordsFor(cause.chain)))]
  const { name, phone, address } = facts.contact
  return {
    found: facts.causes
      .map(
        (cause) =>
          `${cause.name} ${/bacteria$/i.test(cause.name) ? 'were' : 'was'} found in the water of ${facts.well}: ${cause.level}. The limit is ${cause.limit}.`,
      )
      .join(' '),
    when: `The sample was taken on ${formatDay(facts.sampledOn, 'long', facts.locale)}.`,
    effects: words.map((each) => each.effects).join(' '),
    atRisk: words.map((each) => each.atRisk).join(' '),
    otherWater: otherWater(kind),
    whatToDo: [...words.map((each) => actWords(each, kind)), ...words.map((each) => each.doctor)].join(' '),
    doing: facts.doing ?? doingWords(facts.causes),
    until: untilWords(facts),
    contact: `Questions? Call ${name} at ${phone}.${address.trim() === '' ? '' : ` Write to ${address}.`}`,
    passOn:
      'Please pass this on to all who drink the water: guests, tenants, people next door who share the well. Put it up where all can see it.',
  }
}

/** What bacteria call for changes when something is there that boiling makes worse. */
function actWords(words: CauseWords, kind: NoticeKind): string {
  if (words.kind !== 'boil' || kind === 'boil') return words.act
  return 'Germs are in the water as well, so use bottled water to brush teeth, make ice, wash food and mix baby milk too.'
}

function otherWater(kind: NoticeKind): string {
  if (kind === 'boil') return 'Use boiled water or bottled water. A plain jug filter does not take out germs.'
  if (kind === 'inform') return 'You do not need to use other water now.'
  const not = kind === 'do-not-use' ? 'Do not use this water' : 'Do not drink this water or cook with it'
  return `Use bottled water, or water from a source that was tested. ${not}, boiled or not.`
}

function doingWords(causes: readonly NoticeCause[]): string {
  const hasBacteria = causes.some((cause) => cause.chain === 'bacteria')
  const hasOther = causes.some((cause) => cause.chain !== 'bacteria')
  const said: string[] = []
  if (hasBacteria)
    said.push('We look for the way germs get in, treat the well with chlorine, flush it and test it again.')
  if (hasOther)
    said.push(
      'We look for the cause, and for a way to treat the water or to get it from another place. Then we test it again.',
    )
  return said.join(' ')
}

function untilWords(facts: NoticeFacts): string {
  const tests =
    facts.clearNeeded === 1 ? 'one clear test' : `${facts.clearNeeded} clear tests, one after the other`
  const soonest =
    facts.earliestEnd === null
      ? 'We do not know yet when that will be.'
      : `That can be on ${formatDay(facts.earliestEnd, 'long', facts.locale)} at the soonest.`
  return `This notice holds until we tell you that it ends. It takes ${tests}. ${soonest}`
}
