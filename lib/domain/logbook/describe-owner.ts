import { dayFor, type UnitSystem } from '@/lib/domain/quantity'
import type { Fact } from './kinds'

export const TANK_WORDS = {
  full: 'full',
  'three-quarters': 'three quarters full',
  half: 'half full',
  quarter: 'a quarter full',
  empty: 'empty, or nearly',
} as const

export const REASON_WORDS = {
  water: 'the water tastes, smells or looks odd',
  flow: 'too little water, or none',
  pump: 'the pump or its power',
  flood: 'water stood over the well',
  look: 'a look at the well, when somebody is near',
  other: 'something else',
} as const

export const ANSWER_WORDS = {
  planned: 'Visit planned',
  done: 'Visit made',
  'not-coming': 'No visit',
} as const

type OwnerFact = Extract<
  Fact,
  { kind: 'tank-level' | 'visit-request' | 'visit-answer' | 'confirmation' | 'owner-answer' }
>

/** One line that passed between a household and the outfit, as a plain sentence. */
export function describeOwnerFact(fact: OwnerFact, system: UnitSystem): string {
  switch (fact.kind) {
    case 'tank-level':
      return `Tank ${TANK_WORDS[fact.level]}.`
    case 'visit-request':
      return `Asked for a visit${fact.urgent ? ', urgent' : ''}: ${REASON_WORDS[fact.about]}.${quoted(fact.text)}${
        fact.phone ? ` Call back: ${fact.phone}.` : ''
      }`
    case 'visit-answer':
      return `${ANSWER_WORDS[fact.state]}${fact.on ? ` for ${dayFor(fact.on, system)}` : ''}.${quoted(fact.text)}`
    case 'confirmation':
      return fact.verdict === 'confirmed'
        ? `Looked at and confirmed.${quoted(fact.text)}`
        : `Question to the household.${quoted(fact.text)}`
    case 'owner-answer':
      return `Answer of the household.${quoted(fact.text)}`
  }
}

const quoted = (text: string | undefined) => (text === undefined ? '' : ` “${text}”`)
