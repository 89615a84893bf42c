import { describe, expect, test } from 'vitest'
import { type FittedByVisit, type ListedPart, partRegister, type RegisterPart } from '@/lib/domain/pump'

let ids = 0
const listed = (kind: string, more: Partial<ListedPart> = {}): ListedPart => {
  ids += 1
  const bare = { model: null, size: null, fittedOn: null, warrantyUntil: null, removedOn: null, notes: null }
  return { id: `hand${ids}`, kind, ...bare, beside: false, ...more }
}
const fitted = (part: string, on: string, more: Partial<FittedByVisit> = {}): FittedByVisit => {
  ids += 1
  return { entryId: `visit${ids}`, line: 0, on, part, model: null, count: 1, warrantyMonths: null, ...more }
}
const unknown = () => null
const register = (hand: ListedPart[], visits: FittedByVisit[], warranty = unknown as () => number | null) =>
  partRegister(hand, visits, warranty)
const brief = (parts: readonly RegisterPart[]) =>
  parts.map(({ kind, fittedOn, removedOn }) => [kind, fittedOn, removedOn])

describe('a part that a visit fits', () => {
  test('takes the place of the earlier one of its kind, by hand or by visit, on that day', () => {
    const hand = listed('cartridge', { fittedOn: '2024-01-01', notes: 'as built' })
    const parts = register([hand], [fitted('cartridge', '2025-01-01'), fitted('cartridge', '2026-01-01')])
    expect(brief(parts)).toEqual([
      ['cartridge', '2026-01-01', null],
      ['cartridge', '2025-01-01', '2026-01-01'],
      ['cartridge', '2024-01-01', '2025-01-01'],
    ])
    expect(parts[2]).toMatchObject({ listedId: hand.id, notes: 'as built', endedBy: parts[1]?.key })
    expect(parts[0]).toMatchObject({ listedId: null, endedBy: null, doubt: null })
  })

  test('leaves other kinds alone, and of two on one day the later line is in place', () => {
    const parts = register(
      [listed('pump', { fittedOn: '2020-01-01' })],
      [fitted('cartridge', '2026-01-01', { model: 'A' }), fitted('cartridge', '2026-01-01', { model: 'B' })],
    )
    expect(parts.map(({ kind, model, removedOn }) => [kind, model, removedOn])).toEqual([
      ['cartridge', 'B', null],
      ['pump', null, null],
      ['cartridge', 'A', '2026-01-01'],
    ])
  })

  test('has the warranty of its visit, else of its model, counted in calendar months', () => {
    const model = () => 24
    const [own] = register([], [fitted('pump', '2024-02-29', { warrantyMonths: 12 })], model)
    const [known] = register([], [fitted('pump', '2024-02-29', { model: 'P' })], model)
    const [open] = register([], [fitted('pump', '2024-02-29', { model: 'P' })])
    expect([own, known, open].map((part) => part?.warrantyUntil)).toEqual(['2025-02-28', '2026-02-28', null])
  })

  test('is the one that somebody wrote down by hand for the same day, unless the models differ', () => {
    const hand = listed('pump', { model: 'Slow lift', size: '40', fittedOn: '2026-01-01', notes: 'mine' })
    const once = register(
      [hand],
      [fitted('pump', '2026-01-01', { model: ' slow LIFT, 40', warrantyMonths: 12 })],
    )
    expect(once).toMatchObject([
      { listedId: hand.id, model: 'Slow lift', notes: 'mine', warrantyUntil: '2027-01-01', removedOn: null },
    ])
    const blank = register([hand], [fitted('pump', '2026-01-01')])
    expect(blank).toHaveLength(1)
    expect(register([hand], [fitted('pump', '2026-01-01', { model: 'Other' })])).toHaveLength(2)
  })
})

describe('what a person wrote', () => {
  test('is not overwritten by an earlier visit: the visit’s part comes in as an earlier one', () => {
    const hand = listed('cartridge', { fittedOn: '2026-06-10' })
    const parts = register([hand], [fitted('cartridge', '2026-06-01')])
    expect(brief(parts)).toEqual([
      ['cartridge', '2026-06-10', null],
      ['cartridge', '2026-06-01', '2026-06-10'],
    ])
  })

  test('keeps its day of taking out, and one that stands beside others is never replaced', () => {
    const out = listed('tank', { fittedOn: '2020-01-01', removedOn: '2026-03-01' })
    const beside = listed('tank', { fittedOn: '2020-01-01', beside: true })
    const parts = register([out, beside], [fitted('tank', '2026-02-01')])
    expect(brief(parts)).toEqual([
      ['tank', '2026-02-01', null],
      ['tank', '2020-01-01', null],
      ['tank', '2020-01-01', '2026-03-01'],
    ])
  })

  test('without a day, or one of several, is not guessed to be out: the doubt is told', () => {
    const [undated] = register([listed('cap')], [fitted('cap', '2026-01-01')]).filter(
      (p) => p.fittedOn === null,
    )
    expect(undated).toMatchObject({ removedOn: null, doubt: { on: '2026-01-01', why: 'no day' } })
    const two = [listed('cap', { fittedOn: '2020-01-01' }), listed('cap', { fittedOn: '2021-01-01' })]
    const doubtful = register(two, [fitted('cap', '2026-01-01')]).filter((p) => p.listedId !== null)
    expect(doubtful.map(({ doubt, removedOn }) => [doubt?.why, removedOn])).toEqual([
      ['one of several', null],
      ['one of several', null],
    ])
  })

  test('of several: the model tells which is replaced, and as many as stand there replace them all', () => {
    const two = [
      listed('check valve', { model: 'foot', fittedOn: '2020-01-01' }),
      listed('check valve', { model: 'brass', fittedOn: '2020-01-01' }),
    ]
    const one = register(two, [fitted('check valve', '2026-01-01', { model: 'Brass' })])
    expect(one.filter(({ removedOn }) => removedOn !== null).map(({ model }) => model)).toEqual(['brass'])
    const both = register(two, [fitted('check valve', '2026-01-01', { count: 2 })])
    expect(both.filter(({ removedOn }) => removedOn === null)).toHaveLength(1)
  })

  test('things of kind "other" replace one another by their model only', () => {
    const parts = register(
      [],
      [fitted('other', '2025-01-01', { model: 'gauge' }), fitted('other', '2026-01-01', { model: 'hose' })],
    )
    expect(parts.map(({ removedOn }) => removedOn)).toEqual([null, null])
  })
})

test('nothing that is known of a part is lost, whatever stands beside it, and none is in place twice', () => {
  const days = ['2024-01-01', '2024-06-01', '2025-01-01', '2025-06-01']
  for (let n = 0; n < 256; n += 1) {
    const hand = days.filter((_, i) => n & (1 << i)).map((fittedOn) => listed('pump', { fittedOn }))
    const visits = days.filter((_, i) => n & (16 << i)).map((on) => fitted('pump', on))
    const parts = register(hand, visits)
    for (const { id, removedOn } of hand) {
      const now = parts.find(({ listedId }) => listedId === id)
      expect(now, `${n}`).toBeDefined()
      expect(removedOn).toBeNull()
    }
    for (const { entryId } of visits) expect(parts.filter((part) => part.entryId === entryId)).toHaveLength(1)
    expect(parts.filter((p) => p.listedId === null && p.removedOn === null).length, `${n}`).toBeLessThan(2)
    for (const { removedOn, fittedOn } of parts)
      expect(removedOn ?? '9', `${n}`).toSatisfy((day: string) => day >= (fittedOn ?? ''))
  }
})
