import { expect, test } from 'vitest'
import { type CurrentFact, currentFacts, type Entry } from '@/lib/domain/logbook/entries'
import { type Fact, factSchema } from '@/lib/domain/logbook/kinds'
import { openMatters } from '@/lib/domain/logbook/owner-matters'
import { byContent } from '@/lib/exchange/about'
import { compareEntries } from '@/lib/exchange/against-logbook'
import { contentKey } from '@/lib/exchange/content'
import { contentId, newId } from '@/lib/records/ids'
import { keyOf } from '@/lib/records/well-fields'

const LABEL = 'W 1'
const entry = (payload: Fact, more: Partial<Entry> = {}): Entry => ({
  id: newId(),
  wellId: 'w',
  visitId: newId(),
  occurredOn: '2026-11-18',
  occurredTime: null,
  payload,
  supersedes: null,
  withdraws: null,
  byName: null,
  ...more,
})
const sheet = factSchema.parse({
  kind: 'sample',
  sampledAt: '2026-11-17',
  enteredBy: 'owner',
  results: [{ analyte: 'E. coli', result: 'Absent' }],
})

/** As an import stores what an export wrote. */
function imported(facts: readonly CurrentFact[]): Entry[] {
  return byContent(LABEL, facts).map(({ on, time, fact }) =>
    entry(fact, {
      id: contentId(keyOf(LABEL), ...contentKey(on, time, fact)),
      occurredOn: on,
      occurredTime: time,
    }),
  )
}

test('answers still answer after export and import, and a second round says the same', () => {
  const asked = entry({ kind: 'visit-request', about: 'pump', urgent: false })
  const open = entry({ kind: 'visit-request', about: 'flow', urgent: true })
  const sent = entry(sheet, { fromOwner: true })
  const facts = currentFacts([
    asked,
    open,
    sent,
    entry({ kind: 'visit-answer', of: asked.id, state: 'done' }),
    entry({ kind: 'confirmation', of: sent.id, verdict: 'confirmed' }),
  ])
  expect(openMatters(facts).map(({ id }) => id)).toEqual([open.id])
  const once = currentFacts(imported(facts))
  expect(openMatters(once)).toMatchObject([{ kind: 'visit', urgent: true, state: 'open' }])
  const twice = currentFacts(imported(once))
  const said = (lines: readonly CurrentFact[]) => lines.map(({ fact }) => JSON.stringify(fact)).sort()
  expect(said(twice)).toEqual(said(once))
})

test('a file compared with the logbook it came from says nothing new', () => {
  const asked = entry({ kind: 'visit-request', about: 'pump', urgent: false })
  const logbook = [asked, entry({ kind: 'visit-answer', of: asked.id, state: 'done' })]
  const rows = byContent(LABEL, currentFacts(logbook)).map(({ on, time, fact }, row) => ({
    wellLabel: LABEL,
    row,
    on,
    time,
    by: null,
    fact,
  }))
  expect(compareEntries(rows, logbook)).toMatchObject({ fresh: [], unchanged: 2 })
})
