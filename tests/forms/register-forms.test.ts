import fc from 'fast-check'
import { expect, test } from 'vitest'
import { dutyFieldsOf, dutyForm } from '@/lib/forms/duty-form'
import { type FormState, parseForm } from '@/lib/forms/form'
import { partForm } from '@/lib/forms/part-form'
import { wellFieldsOf, wellForm } from '@/lib/forms/well-form'
import { WELL_QUANTITIES } from '@/lib/forms/well-quantities'

const TODAY = '2026-11-20'
const junk = fc.oneof(
  fc.string({ maxLength: 60 }),
  fc.constantFrom(
    '',
    ' ',
    '12',
    '12,5',
    '-3',
    '9 gpm',
    '2\' 4"',
    '1/2 in',
    '2026-02-30',
    '28/10/2025',
    'NaN',
    '1e400',
    '=1+1',
    '\u0000',
  ),
)
const formOf = (fields: Record<string, string>) => {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.set(name, value)
  return form
}
const dictionary = (names: readonly string[]) =>
  fc.dictionary(fc.constantFrom(...names), junk, { maxKeys: 10 })

/** A refusal says something about a field, keeps what was typed, and uses none of the words that help nobody. */
function expectRefusal(state: FormState, fields: Record<string, string>): void {
  const sentences = Object.values(state.errors)
  expect(sentences.length).toBeGreaterThan(0)
  for (const sentence of sentences)
    expect(sentence).not.toMatch(/\b(please|sorry|valid|invalid|oops|forbidden)\b/i)
  for (const [name, typed] of Object.entries(state.typed))
    if (name in fields) expect(typed).toBe(fields[name])
}

const WELL_NAMES = [
  'label',
  'name',
  'ownerName',
  'ownerEmail',
  'area',
  'latitude',
  'longitude',
  'installedOn',
  'closedFrom',
  'closedTo',
  'visitDays',
  'retiredOn',
  'notes',
  ...Object.keys(WELL_QUANTITIES),
]

test('the form of a well meets any text with a well or with sentences', () => {
  fc.assert(
    fc.property(
      dictionary(WELL_NAMES),
      fc.constantFrom('us' as const, 'metric' as const),
      (fields, system) => {
        const parsed = parseForm(wellForm(system, TODAY), formOf(fields))
        if (parsed.ok) {
          const well = wellFieldsOf(parsed.value, parsed.typed, null)
          expect(well.label.length).toBeGreaterThan(0)
          for (const value of Object.values(well)) expect(Number.isNaN(value)).toBe(false)
        } else expectRefusal(parsed.state, fields)
      },
    ),
    { numRuns: 400 },
  )
})

test('the form of a duty meets any text with a duty or with sentences', () => {
  const names = [
    'name',
    'consequence',
    'everyMonths',
    'everyRunS',
    'everyM3',
    'brushLimit',
    'dropLimit',
    'lastDoneOn',
  ]
  fc.assert(
    fc.property(dictionary(names), (fields) => {
      const parsed = parseForm(dutyForm('us', TODAY), formOf(fields))
      if (parsed.ok) expect(dutyFieldsOf(parsed.value).key.length).toBeGreaterThan(0)
      else expectRefusal(parsed.state, fields)
    }),
    { numRuns: 400 },
  )
})

test('the form of a part meets any text with a part or with sentences', () => {
  fc.assert(
    fc.property(
      dictionary(['kind', 'model', 'size', 'fittedOn', 'warrantyUntil', 'removedOn', 'notes']),
      (fields) => {
        const parsed = parseForm(partForm(TODAY), formOf(fields))
        if (!parsed.ok) expectRefusal(parsed.state, fields)
        else expect(parsed.value.kind.length).toBeGreaterThan(0)
      },
    ),
    { numRuns: 300 },
  )
})

test('days of the week are read as people write them, and asked about where they are none', () => {
  const read = (visitDays: string) => parseForm(wellForm('us', TODAY), formOf({ label: 'W1', visitDays }))
  expect(read('only Tuesdays and Saturdays')).toMatchObject({ ok: true, value: { visitDays: 'Tue, Sat' } })
  expect(read('')).toMatchObject({ ok: true, value: { visitDays: null } })
  const refused = read('when the dog is in')
  expect(refused.ok).toBe(false)
  if (!refused.ok) expectRefusal(refused.state, { visitDays: 'when the dog is in' })
})
