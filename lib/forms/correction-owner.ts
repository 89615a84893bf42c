import { ANSWER_WORDS, REASON_WORDS, TANK_WORDS } from '@/lib/domain/logbook/describe-owner'
import { type Fact, TANK_LEVELS, VISIT_ANSWERS, VISIT_REASONS } from '@/lib/domain/logbook/kinds'
import { type CorrectionField, textField as text } from './correction-field'

export type OwnerLine = Extract<
  Fact,
  { kind: 'tank-level' | 'visit-request' | 'visit-answer' | 'confirmation' | 'owner-answer' }
>

const choice = <V extends string>(
  name: string,
  label: string,
  value: V,
  values: readonly V[],
  words: Record<V, string>,
): CorrectionField => ({
  name,
  label,
  value,
  input: 'choice',
  options: values.map((one) => ({ value: one, label: words[one] })),
})

/** The fields in which a line between household and outfit is corrected. What it is about stays. */
export function ownerFields(fact: OwnerLine): CorrectionField[] {
  switch (fact.kind) {
    case 'tank-level':
      return [choice('tank', 'Tank', fact.level, TANK_LEVELS, TANK_WORDS)]
    case 'visit-request':
      return [
        choice('about', 'What it is about', fact.about, VISIT_REASONS, REASON_WORDS),
        choice('urgent', 'How soon', fact.urgent ? 'yes' : 'no', ['no', 'yes'], URGENT_WORDS),
        text('words', 'In words', fact.text, 'lines'),
        text('phone', 'Call back', fact.phone),
      ]
    case 'visit-answer':
      return [
        choice('answer', 'Answer', fact.state, VISIT_ANSWERS, ANSWER_WORDS),
        text('promised', 'Day of the visit', fact.on),
        text('words', 'In words', fact.text, 'lines'),
      ]
    case 'confirmation':
      return [
        choice('verdict', 'Outcome', fact.verdict, ['confirmed', 'queried'], VERDICT_WORDS),
        text('words', 'In words', fact.text, 'lines'),
      ]
    case 'owner-answer':
      return [text('words', 'In words', fact.text, 'lines')]
  }
}

const URGENT_WORDS = { no: 'When it suits', yes: 'As soon as possible' } as const
const VERDICT_WORDS = { confirmed: 'confirmed', queried: 'a question' } as const
