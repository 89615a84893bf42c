import { describe, expect, test } from 'vitest'
import { currentFacts, type Entry } from '@/lib/domain/logbook/entries'
import { type Fact, factSchema, type Payload } from '@/lib/domain/logbook/kinds'
import { openMatters } from '@/lib/domain/logbook/owner-matters'
import { RECKON_SETTINGS } from '@/lib/domain/logbook/settings'
import { waterStanding } from '@/lib/domain/logbook/water-record'

let count = 0
/** Ids in order of time, as they are made. */
const id = () => `0190a000-0000-7000-8000-${String(++count).padStart(12, '0')}`

function line(payload: Payload | object, more: Partial<Entry> = {}): Entry {
  return {
    id: id(),
    wellId: 'w',
    visitId: id(),
    occurredOn: '2026-11-18',
    occurredTime: null,
    payload: payload as Payload,
    supersedes: null,
    withdraws: null,
    byName: 'Orla',
    ...more,
  }
}

const owners = (payload: object, more: Partial<Entry> = {}) => line(payload, { fromOwner: true, ...more })
const sheet = (on: string, result: string, more: object = {}): Fact =>
  factSchema.parse({
    kind: 'sample',
    sampledAt: `${on}T09:00`,
    receivedAt: `${on}T12:00`,
    results: [
      { analyte: 'Total coliform', result, unit: 'per 100 mL' },
      { analyte: 'E. coli', result: 'Absent', unit: 'per 100 mL' },
    ],
    ...more,
  })
const look = (of: Entry, verdict: 'confirmed' | 'queried', text?: string) =>
  line({ kind: 'confirmation', of: of.id, verdict, ...(text ? { text } : {}) }, { byName: 'Maren' })
const open = (entries: Entry[]) => openMatters(currentFacts(entries))

describe('a visit that was asked for', () => {
  const request = () =>
    owners({
      kind: 'visit-request',
      about: 'flow',
      urgent: true,
      text: 'Barely a trickle',
      phone: '555 0100',
    })
  const answer = (of: Entry, state: string, more = {}) =>
    line({ kind: 'visit-answer', of: of.id, state, ...more })

  test('is open until it is answered, planned with its day, and then done with', () => {
    const asked = request()
    expect(open([asked])).toMatchObject([{ id: asked.id, kind: 'visit', state: 'open', urgent: true }])
    const planned = answer(asked, 'planned', { on: '2026-11-24' })
    expect(open([asked, planned])).toMatchObject([{ state: 'planned', promised: '2026-11-24' }])
    expect(open([asked, planned, answer(asked, 'done')])).toEqual([])
    expect(open([asked, answer(asked, 'not-coming', { text: 'We no longer look after this well' })])).toEqual(
      [],
    )
  })

  test('is open again where the answer was taken back', () => {
    const asked = request()
    const done = answer(asked, 'done')
    const back = line({ kind: 'withdrawal', reason: 'wrong well' }, { withdraws: done.id })
    expect(open([asked, done, back])).toMatchObject([{ state: 'open' }])
  })

  test('is nobody’s any more when it was withdrawn itself', () => {
    const asked = request()
    expect(open([asked, line({ kind: 'withdrawal', reason: 'mended' }, { withdraws: asked.id })])).toEqual([])
  })
})

describe('what a household wrote', () => {
  test('waits for a look; what the outfit wrote does not', () => {
    const reading = { kind: 'flow-reading', flow: { si: 0.0005, typed: '8 gpm' } }
    expect(open([owners(reading)])).toMatchObject([{ kind: 'look', state: 'new' }])
    expect(open([line(reading)])).toEqual([])
    expect(open([owners({ kind: 'tank-level', level: 'half' })])).toEqual([])
    expect(open([line(sheet('2026-11-18', 'Absent', { enteredBy: 'owner' }))])).toMatchObject([
      { state: 'new' },
    ])
  })

  test('is queried, answered and confirmed in turn', () => {
    const note = owners({ kind: 'note', text: 'The lid is loose' })
    const question = look(note, 'queried', 'Which lid?')
    expect(open([note, question])).toMatchObject([{ state: 'queried', question: 'Which lid?', answer: null }])
    const reply = owners({ kind: 'owner-answer', of: note.id, text: 'That of the tank' })
    expect(open([note, question, reply])).toMatchObject([{ state: 'answered', answer: 'That of the tank' }])
    const again = look(note, 'queried', 'And is it dry below?')
    expect(open([note, question, reply, again])).toMatchObject([{ state: 'queried', answer: null }])
    expect(open([note, question, reply, again, look(note, 'confirmed')])).toEqual([])
  })
})

describe('a lab sheet of a household', () => {
  const standing = (entries: Entry[], ownerSheetsCount = false) => {
    const settings = { ...RECKON_SETTINGS, water: { ...RECKON_SETTINGS.water, ownerSheetsCount } }
    return waterStanding(currentFacts(entries), settings, null)
  }
  const unlooked = { enteredBy: 'owner' }
  /** A positive, disinfected and flushed: what is missing are the clear samples. */
  const opened = () => [
    line(sheet('2026-10-01', 'Present'), { occurredOn: '2026-10-01' }),
    line(
      factSchema.parse({
        kind: 'water-step',
        step: 'disinfected',
        targetMgL: 100,
        contact: { si: 43_200, typed: '12 h' },
      }),
      { occurredOn: '2026-10-05' },
    ),
    line(factSchema.parse({ kind: 'water-step', step: 'flushed', chlorineGone: 'yes' }), {
      occurredOn: '2026-10-07',
    }),
  ]
  const clear = (more: object) =>
    ['2026-10-20', '2026-11-10'].map((on) => owners(sheet(on, 'Absent', more), { occurredOn: on }))

  test('clears no chain by itself, and does once it is confirmed', () => {
    const sheets = clear(unlooked)
    const entries = [...opened(), ...sheets]
    expect(standing(entries).chain?.key).toBe('bacteria')
    const confirmed = [...entries, ...sheets.map((each) => look(each, 'confirmed'))]
    expect(standing(confirmed).chain).toBeNull()
    // The same sheets written by the outfit close it, so that what kept it open was the missing look.
    expect(standing([...opened(), ...clear({})]).chain).toBeNull()
  })

  test('one confirmed of two needed is not enough, and a question takes a confirmation back', () => {
    const sheets = clear(unlooked)
    const entries = [...opened(), ...sheets]
    const [first, second] = sheets
    if (!first || !second) throw new Error('two sheets')
    expect(standing([...entries, look(first, 'confirmed')]).chain?.key).toBe('bacteria')
    const both = [...entries, look(first, 'confirmed'), look(second, 'confirmed')]
    expect(standing([...both, look(second, 'queried', 'Whose tap was it?')]).chain?.key).toBe('bacteria')
  })

  test('that was corrected after the look waits for another one', () => {
    const sheets = clear(unlooked)
    const looks = sheets.map((each) => look(each, 'confirmed'))
    const [first] = sheets
    if (!first) throw new Error('a sheet')
    const correction = line(
      {
        kind: 'correction',
        reason: 'wrong tap',
        occurredOn: '2026-10-20',
        occurredTime: null,
        replacement: sheet('2026-10-20', 'Absent', { ...unlooked, point: 'garden tap' }),
      },
      { supersedes: first.id },
    )
    const entries = [...opened(), ...sheets, ...looks, correction]
    expect(standing(entries).chain?.key).toBe('bacteria')
    expect(standing([...entries, look(first, 'confirmed')]).chain).toBeNull()
  })

  test('clears where the outfit has chosen to trust its households, and warns at once whatever was chosen', () => {
    const entries = [...opened(), ...clear(unlooked)]
    expect(standing(entries, true).chain).toBeNull()
    for (const trust of [true, false]) {
      const bad = owners(sheet('2026-11-15', 'Present', unlooked))
      expect(standing([bad], trust).chain?.key).toBe('bacteria')
    }
  })
})
