import type { Day } from '@/lib/domain/quantity/day'
import type { CurrentFact } from './entries'
import type { Fact } from './kinds'
import { lastLooks, sawWords } from './looks'

/** Something between a household and the outfit that is not settled yet. `id`: the entry that it is about. */
export type Matter = { id: string; on: Day; byName: string | null } & (
  | { kind: 'visit'; urgent: boolean; state: 'open' | 'planned'; promised: Day | null; fact: RequestFact }
  /** Written by the household. `queried`: the outfit asked; `answered`: and the household said something to it. */
  | {
      kind: 'look'
      state: 'new' | 'queried' | 'answered'
      question: string | null
      answer: string | null
      fact: Fact
    }
)

type RequestFact = Extract<Fact, { kind: 'visit-request' }>

/** Kinds that are settled by being written: a tank is fuller the next day, and answers answer. */
const NOT_LOOKED_AT: readonly Fact['kind'][] = ['tank-level', 'visit-request', 'owner-answer']

/** Everything that is open between household and outfit, oldest first. */
export function openMatters(facts: readonly CurrentFact[]): Matter[] {
  const said = {
    looks: lastLooks(facts),
    answers: lastSaid(facts, (fact) => (fact.kind === 'owner-answer' ? fact : null)),
    promises: lastSaid(facts, (fact) => (fact.kind === 'visit-answer' ? fact : null)),
  }
  return facts.flatMap((line) => {
    const matter =
      line.fact.kind === 'visit-request' ? visitAsked(line, line.fact, said) : toLookAt(line, said)
    return matter === null ? [] : [matter]
  })
}

type Later = {
  looks: ReturnType<typeof lastLooks>
  answers: Map<string, { id: string; fact: Extract<Fact, { kind: 'owner-answer' }> }>
  promises: Map<string, { id: string; fact: Extract<Fact, { kind: 'visit-answer' }> }>
}

function visitAsked({ id, on, byName }: CurrentFact, fact: RequestFact, { promises }: Later): Matter | null {
  const promise = promises.get(id)
  if (promise && promise.fact.state !== 'planned') return null
  const state = promise ? 'planned' : 'open'
  return {
    kind: 'visit',
    id,
    on,
    byName,
    urgent: fact.urgent,
    state,
    promised: promise?.fact.on ?? null,
    fact,
  }
}

function toLookAt(line: CurrentFact, { looks, answers }: Later): Matter | null {
  const { id, on, byName, fact } = line
  if (!isOwners(line) || NOT_LOOKED_AT.includes(fact.kind)) return null
  if (fact.kind === 'sample' && fact.confirmedBy !== undefined) return null
  const look = looks.get(id)
  const seen = look && sawWords(look, line) ? look : null
  const about = { kind: 'look', id, on, byName, fact } as const
  if (seen === null) return { ...about, state: 'new', question: null, answer: null }
  if (seen.verdict === 'confirmed') return null
  const answer = answers.get(id)
  const answered = answer && answer.id > seen.id ? answer.fact.text : null
  return {
    ...about,
    state: answered === null ? 'queried' : 'answered',
    question: seen.text ?? null,
    answer: answered,
  }
}

/** Whether a household wrote a line, by its own hand or by an import that says so. */
export function isOwners({ fact, fromOwner }: Pick<CurrentFact, 'fact' | 'fromOwner'>): boolean {
  return fromOwner === true || (fact.kind === 'sample' && fact.enteredBy === 'owner')
}

/** The last line of a kind about each other line, by the id of that other. */
export function lastSaid<F extends { of: string }>(
  facts: readonly CurrentFact[],
  pick: (fact: Fact) => F | null,
): Map<string, { id: string; fact: F }> {
  const last = new Map<string, { id: string; fact: F }>()
  for (const { id, fact } of facts) {
    const picked = pick(fact)
    if (picked === null) continue
    const before = last.get(picked.of)
    if (!before || before.id < id) last.set(picked.of, { id, fact: picked })
  }
  return last
}
