import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { currentFacts } from '@/lib/domain/logbook/entries'
import { logbookVisits, type RecordedEntry } from '@/lib/domain/logbook/history'
import type { Payload } from '@/lib/domain/logbook/kinds'

const id = (n: number) => `0192f000-0000-7000-8000-${String(n).padStart(12, '0')}`
const note = (text: string): Payload => ({ kind: 'note', text })

function entry(n: number, payload: Payload, more: Partial<RecordedEntry> = {}): RecordedEntry {
  return {
    id: id(n),
    wellId: 'w',
    visitId: id(900),
    occurredOn: '2026-03-01',
    occurredTime: null,
    payload,
    supersedes: null,
    withdraws: null,
    byName: 'Joss',
    recordedAt: `2026-03-0${Math.min(9, n)}T10:00:00.000Z`,
    ...more,
  }
}
const corrects = (n: number, target: number, text: string, on = '2026-03-01') =>
  entry(
    n,
    {
      kind: 'correction',
      reason: `reason ${n}`,
      occurredOn: on,
      occurredTime: null,
      replacement: { kind: 'note', text },
    },
    { supersedes: id(target), byName: 'Maren' },
  )
const withdraws = (n: number, target: number) =>
  entry(n, { kind: 'withdrawal', reason: `reason ${n}` }, { withdraws: id(target), byName: 'Maren' })

describe('a line of the logbook', () => {
  test('shows the words that hold now, and the first ones with who corrected them, when and why', () => {
    const [visit] = logbookVisits([entry(1, note('7 ft')), corrects(2, 1, '17 ft')])
    const line = visit?.lines[0]
    expect(line).toMatchObject({ stands: true, fact: { text: '17 ft' }, by: 'Maren' })
    expect(line?.history).toMatchObject([
      { kind: 'written', fact: { text: '7 ft' }, by: 'Joss', stands: true },
      {
        kind: 'corrected',
        fact: { text: '17 ft' },
        by: 'Maren',
        reason: 'reason 2',
        recordedAt: '2026-03-02T10:00:00.000Z',
      },
    ])
  })

  test('keeps a correction of a correction with the line first written', () => {
    const visits = logbookVisits([entry(1, note('a')), corrects(2, 1, 'b'), corrects(3, 2, 'c')])
    expect(visits.flatMap((visit) => visit.lines)).toHaveLength(1)
    expect(visits[0]?.lines[0]).toMatchObject({ fact: { text: 'c' }, history: { length: 3 } })
  })

  test('that was withdrawn is still there, with its last words and the reason', () => {
    const line = logbookVisits([entry(1, note('a')), corrects(2, 1, 'b'), withdraws(3, 1)])[0]?.lines[0]
    expect(line).toMatchObject({ stands: false, fact: { text: 'b' } })
    expect(line?.history.at(-1)).toMatchObject({ kind: 'withdrawn', reason: 'reason 3', stands: true })
  })

  test('stands again when the withdrawal is withdrawn, and says so', () => {
    const line = logbookVisits([entry(1, note('a')), withdraws(2, 1), withdraws(3, 2)])[0]?.lines[0]
    expect(line?.stands).toBe(true)
    expect(line?.history.map((step) => [step.kind, step.stands])).toEqual([
      ['written', true],
      ['withdrawn', false],
      ['restored', true],
    ])
  })
})

describe('the logbook', () => {
  test('has the newest visit first, and puts work before readings, whatever their ids', () => {
    const visits = logbookVisits([
      entry(1, note('old'), { visitId: id(901), occurredOn: '2025-01-01' }),
      entry(2, note('new')),
      entry(3, { kind: 'service-done', duties: ['x'], names: [], parts: [] }),
    ])
    expect(visits.map((visit) => visit.on)).toEqual(['2026-03-01', '2025-01-01'])
    expect(visits[0]?.lines.map((line) => line.fact.kind)).toEqual(['service-done', 'note'])
  })

  test('shows every entry exactly once and agrees with the facts that hold, for any web of corrections', () => {
    const step = fc.record({ how: fc.constantFrom('write', 'correct', 'withdraw'), at: fc.nat() })
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 14 }), fc.nat(), (steps, turn) => {
        const entries: RecordedEntry[] = []
        for (const { how, at } of steps) {
          const n = entries.length + 1
          const target = entries.length > 0 ? (at % entries.length) + 1 : 0
          const kind = entries[target - 1]?.payload.kind
          if (how === 'write' || target === 0) entries.push(entry(n, note(`note ${n}`)))
          else if (how === 'correct' && kind !== 'withdrawal') entries.push(corrects(n, target, `c ${n}`))
          else entries.push(withdraws(n, target))
        }
        const shuffled = [...entries.slice(turn % entries.length), ...entries.slice(0, turn % entries.length)]
        const lines = logbookVisits(shuffled).flatMap((visit) => visit.lines)
        const shown = lines.flatMap((line) => line.history.map((one) => one.id))
        expect([...shown].sort()).toEqual(entries.map((one) => one.id).sort())
        const standing = lines.filter((line) => line.stands).map((line) => [line.id, line.fact])
        expect(new Map(standing as [string, unknown][])).toEqual(
          new Map(currentFacts(entries).map((fact) => [fact.id, fact.fact])),
        )
      }),
    )
  })
})
