import { describe, expect, test } from 'vitest'
import { entryDraftSchema, type Fact } from '@/lib/domain/logbook/kinds'
import { trackUsage } from '@/lib/domain/upkeep'
import { correctionFields } from '@/lib/forms/correction-fields'
import { readCorrection } from '@/lib/forms/correction-form'
import { readOwnerLine } from '@/lib/forms/owner-line-form'
import type { VisitContext } from '@/lib/forms/visit/context'

const context = { wellId: 'w', today: '2026-11-20', by: 'Orla', system: 'us' } as const
const visitId = '0190a000-0000-7000-8000-000000000001'
const ABOUT = '0190a000-0000-7000-8000-00000000000a'

const read = (kind: Parameters<typeof readOwnerLine>[1]['kind'], typed: Record<string, string>) =>
  readOwnerLine({ visitId, ...typed }, { kind, of: ABOUT }, context)

describe('a line between household and outfit', () => {
  test.each<[Parameters<typeof readOwnerLine>[1]['kind'], Record<string, string>, Partial<Fact>]>([
    ['tank-level', { tank: 'half' }, { kind: 'tank-level', level: 'half' }],
    [
      'visit-request',
      { about: 'pump', urgent: 'yes', words: ' It hums ', phone: '555' },
      { kind: 'visit-request', about: 'pump', urgent: true, text: 'It hums', phone: '555' },
    ],
    [
      'visit-answer',
      { answer: 'planned', promised: '24 Nov 2026' },
      { kind: 'visit-answer', of: ABOUT, state: 'planned', on: '2026-11-24' },
    ],
    ['confirmation', { verdict: 'confirmed' }, { kind: 'confirmation', of: ABOUT, verdict: 'confirmed' }],
    [
      'confirmation',
      { verdict: 'queried', words: 'Which tap?' },
      { kind: 'confirmation', of: ABOUT, verdict: 'queried', text: 'Which tap?' },
    ],
    ['owner-answer', { words: 'The kitchen' }, { kind: 'owner-answer', of: ABOUT, text: 'The kitchen' }],
  ])('%s is read, and sent twice has the same id', (kind, typed, fact) => {
    const [first, second] = [read(kind, typed), read(kind, typed)]
    if (!first.ok || !second.ok) throw new Error(JSON.stringify(first))
    expect(first.draft.payload).toEqual(fact)
    expect(entryDraftSchema.safeParse(first.draft).success).toBe(true)
    expect(second.draft.id).toBe(first.draft.id)
  })

  test.each<[Parameters<typeof readOwnerLine>[1]['kind'], Record<string, string>, string]>([
    ['tank-level', { tank: 'brimming' }, 'tank'],
    ['visit-request', {}, 'about'],
    ['visit-request', { about: 'other' }, 'words'],
    ['visit-request', { about: 'pump', words: 'x'.repeat(1001) }, 'words'],
    ['visit-answer', {}, 'answer'],
    ['visit-answer', { answer: 'planned', promised: 'soon' }, 'promised'],
    ['confirmation', { verdict: 'queried' }, 'words'],
    ['owner-answer', { words: '  ' }, 'words'],
    ['tank-level', { tank: 'half', visitId: 'none' }, 'visitId'],
  ])('%s of %j is refused at its field', (kind, typed, field) => {
    const reading = read(kind, typed)
    expect(reading.ok ? {} : reading.errors).toHaveProperty(field)
  })
})

test.each<Fact>([
  { kind: 'tank-level', level: 'empty' },
  { kind: 'visit-request', about: 'water', urgent: true, text: 'It smells', phone: '555 0100' },
  { kind: 'visit-answer', of: ABOUT, state: 'planned', on: '2026-11-24', text: 'In the morning' },
  { kind: 'confirmation', of: ABOUT, verdict: 'queried', text: 'Which tap?' },
  { kind: 'owner-answer', of: ABOUT, text: 'The kitchen' },
])('$kind opened for correction and saved unchanged says the same', (fact) => {
  const visit: VisitContext = {
    wellId: 'w',
    today: '2026-11-20',
    system: 'us',
    wellDepthM: null,
    duties: [],
    hours: trackUsage([]),
    volume: trackUsage([]),
  }
  const typed = Object.fromEntries(correctionFields(fact, 'us').map(({ name, value }) => [name, value]))
  const reading = readCorrection({ ...typed, date: '2026-11-20', reason: 'x' }, fact, visit)
  expect(reading.ok ? reading.correction.replacement : reading.errors).toEqual(fact)
})
