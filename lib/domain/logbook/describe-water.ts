import type { Use } from '@/lib/domain/quantity'
import { chainName } from '@/lib/domain/water/chain-marks'
import { AGAIN } from '@/lib/domain/water/tables/frequency'
import type { NoticeKind } from '@/lib/domain/water/tables/notices'
import type { Fact } from './kinds'

type WaterStep = Extract<Fact, { kind: 'water-step' }>
type StepOf<S extends WaterStep['step']> = Extract<WaterStep, { step: S }>
type Show = (si: number, use: Use) => string

/** What each kind of notice is called. */
export const NOTICE_WORDS: Readonly<Record<NoticeKind, string>> = {
  inform: 'Notice to inform',
  boil: 'Boil notice',
  'do-not-drink': 'Do-not-drink notice',
  'do-not-use': 'Do-not-use notice',
}

/** What each step of a chain is called in lists and on forms. */
export const WATER_STEP_WORDS: Readonly<Record<WaterStep['step'], string>> = {
  notice: 'Notice given',
  disinfected: 'Disinfected',
  flushed: 'Flushed',
  remedied: 'Remedy for a substance',
  'well-repaired': 'Well repaired',
  'chain-closed': 'Chain closed by a person',
  'test-again': 'Reason to test again',
}

/** A step of a chain as one sentence. */
export function describeWaterStep(fact: WaterStep, show: Show): string {
  switch (fact.step) {
    case 'notice':
      return `${NOTICE_WORDS[fact.notice]}${about(fact.chain)} given to ${fact.to}${fact.how ? ` (${fact.how})` : ''}.`
    case 'disinfected':
      return describeDisinfection(fact, show)
    case 'flushed':
      return `Flushed${fact.where ? ` (${fact.where})` : ''}; ${CHLORINE[fact.chlorineGone]}.`
    case 'remedied':
      return ended(`Remedy${about(fact.chain)}: ${fact.what}`)
    case 'well-repaired':
      return ended(`Well repaired: ${fact.what}`)
    case 'chain-closed':
      return ended(`Chain${about(fact.chain)} closed by ${fact.by}, not by clear samples: ${fact.reason}`)
    case 'test-again':
      return `Reason to test the water again: ${againWords(fact.event)}.`
  }
}

const CHLORINE: Readonly<Record<StepOf<'flushed'>['chlorineGone'], string>> = {
  yes: 'a test found no chlorine left',
  no: 'chlorine was still found',
  'not-tested': 'not tested for chlorine',
}

/** What happened, in the words of the table of events. */
export function againWords(event: StepOf<'test-again'>['event']): string {
  return AGAIN.find((row) => row.event === event)?.words ?? event
}

const about = (chain: string | undefined): string => (chain === undefined ? '' : ` (${chainName(chain)})`)

const ended = (words: string): string => (/[.!?]$/.test(words) ? words : `${words}.`)

function describeDisinfection(fact: StepOf<'disinfected'>, show: Show): string {
  const strength = fact.strengthPercent === undefined ? '' : ` at ${fact.strengthPercent}%`
  const name = fact.product ?? 'product'
  const amounts = [
    ...(fact.volume ? [`${show(fact.volume.si, 'volume')} of ${name}${strength}`] : []),
    ...(fact.massG === undefined ? [] : [`${fact.massG} g of ${name}${strength}`]),
  ]
  const named = fact.product || strength !== '' ? [`${name}${strength}`] : []
  const said = [
    ...(fact.targetMgL === undefined ? [] : [`to ${fact.targetMgL} mg/L of chlorine`]),
    ...(amounts.length > 0 ? amounts : named),
    ...(fact.contact ? [`left to stand ${show(fact.contact.si, 'hours')}`] : []),
  ]
  const missing = [
    ...(fact.targetMgL === undefined ? ['strength'] : []),
    ...(fact.contact ? [] : ['time']),
  ].join(' and ')
  return `Disinfected${said.length > 0 ? `: ${said.join(', ')}` : ''}${missing === '' ? '' : `; ${missing} not written down`}.`
}
