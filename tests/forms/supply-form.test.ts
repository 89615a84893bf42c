import { describe, expect, test } from 'vitest'
import { parseForm } from '@/lib/forms/form'
import { stockDays, stockMoveForm, stockRuleForm } from '@/lib/forms/stock-form'
import { supplyFactsOfForm, supplyForm, supplyFormTexts } from '@/lib/forms/supply-form'
import { readWhatIf } from '@/lib/forms/supply-what-if'

const TODAY = '2026-11-20'
const sent = (texts: Record<string, string>) => {
  const form = new FormData()
  for (const [name, text] of Object.entries(texts)) form.set(name, text)
  return form
}
const read = (texts: Record<string, string>) => parseForm(supplyForm('us'), sent(texts))
const errorsOf = (texts: Record<string, string>) => {
  const parsed = read(texts)
  return parsed.ok ? {} : parsed.state.errors
}

describe('the form of supply facts', () => {
  test('states what was typed, and opens with it again', () => {
    const typed = {
      drive: 'sun',
      flow: '6.5',
      panel: '180 W',
      tilt: '35',
      azimuth: '-10',
      pumpPlace: 'ground',
      sunKind: 'energy',
      sunValues: '1 2 3 4 5 6 7 6 5 4 3 2',
      sunSource: 'my own',
      houseDaily: '200',
      gardenDaily: '900 gal/day',
      gardenFrom: '11',
      gardenTo: '2',
    }
    const parsed = read(typed)
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.state.errors))
    const facts = supplyFactsOfForm(parsed.value, TODAY)
    expect(facts).toMatchObject({ drive: 'sun', tiltDeg: 35, azimuthDeg: -10, setOn: TODAY })
    expect(facts.flow?.si).toBeCloseTo((6.5 * 0.003785411784) / 60, 12)
    expect(facts.uses.map(({ name, months }) => [name, months])).toEqual([
      ['house', [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]],
      ['garden', [11, 12, 1, 2]],
    ])
    const again = read(supplyFormTexts(facts, 'us'))
    if (!again.ok) throw new Error(JSON.stringify(again.state.errors))
    expect(supplyFactsOfForm(again.value, TODAY)).toEqual(facts)
    const metric = parseForm(supplyForm('metric'), sent(supplyFormTexts(facts, 'metric')))
    if (!metric.ok) throw new Error(JSON.stringify(metric.state.errors))
    expect(supplyFactsOfForm(metric.value, TODAY).flow?.si).toBeCloseTo(facts.flow?.si ?? 0, 9)
  })

  test('leaves a blank unknown', () => {
    const parsed = read({ drive: 'mains' })
    if (!parsed.ok) throw new Error('refused')
    expect(supplyFactsOfForm(parsed.value, TODAY)).toEqual({ drive: 'mains', uses: [], setOn: TODAY })
  })

  test.each([
    [{}, 'drive', 'what drives'],
    [{ drive: 'wind' }, 'drive', 'what drives'],
    [{ drive: 'sun', tilt: '120' }, 'tilt', 'from 0 to 90'],
    [{ drive: 'sun', azimuth: 'south' }, 'azimuth', 'degrees'],
    [{ drive: 'sun', panel: '0' }, 'panel', 'blank'],
    [{ drive: 'sun', flow: '0' }, 'flow', 'blank'],
    [{ drive: 'sun', sunKind: 'energy' }, 'sunValues', 'both'],
    [{ drive: 'sun', sunValues: '1 2 3 4 5 6 7 8 9 10 11 12' }, 'sunKind', 'both'],
    [{ drive: 'sun', sunKind: 'energy', sunValues: '1 2' }, 'sunValues', 'twelve numbers'],
    [{ drive: 'sun', sunKind: 'energy', sunValues: '1 2 3 4 5 6 7 8 9 10 11 12' }, 'sunSource', 'where'],
    [{ drive: 'mains', gardenFrom: '5' }, 'gardenTo', 'both months'],
  ])('refuses %j at %s', (texts, field, words) => {
    expect(errorsOf(texts)[field]).toContain(words)
  })
})

test('a what-if takes what it can read, and tells what it cannot', () => {
  expect(readWhatIf({}, 'us')).toMatchObject({ any: false, state: { errors: {} } })
  const { asked, state, any } = readWhatIf({ tank: '1000', demand: '120 %', panel: 'big' }, 'us')
  expect(any).toBe(true)
  expect(asked.tankM3).toBeCloseTo(3.785411784, 9)
  expect(asked.demandTimes).toBe(1.2)
  expect(asked.panelW).toBeNull()
  expect(Object.keys(state.errors)).toEqual(['panel'])
  expect(readWhatIf({ demand: '0' }, 'us').state.errors.demand).toContain('from 1 to 1000')
})

describe('the forms of the shelf', () => {
  const MOVE = '0190a000-0000-7000-8000-000000000001'
  const move = (texts: Record<string, string>) =>
    parseForm(
      stockMoveForm(TODAY),
      sent({ moveId: MOVE, part: 'lamp', kind: 'counted', count: '0', ...texts }),
    )

  test('take a count of nothing, and no movement of nothing', () => {
    expect(move({})).toMatchObject({ ok: true, value: { count: 0, model: null, on: null } })
    expect(move({ kind: 'received' })).toMatchObject({ ok: false })
    expect(move({ kind: 'taken', count: '2', on: '2026-11-21' })).toMatchObject({ ok: false })
    expect(move({ count: '-1' })).toMatchObject({ ok: false })
    expect(move({ count: '1.5' })).toMatchObject({ ok: false })
    expect(move({ part: 'wheel' })).toMatchObject({ ok: false })
  })

  test('take both numbers of a level, or none', () => {
    expect(stockRuleForm.parse({ reorderAt: ' ', upTo: '' })).toBeNull()
    expect(stockRuleForm.parse({ reorderAt: '2', upTo: '10' })).toEqual({ reorderAt: 2, upTo: 10 })
    for (const wrong of [
      { reorderAt: '2', upTo: '' },
      { reorderAt: '5', upTo: '5' },
      { reorderAt: 'two', upTo: '5' },
    ]) {
      expect(stockRuleForm.safeParse(wrong).success, JSON.stringify(wrong)).toBe(false)
    }
  })

  test('look 30 days ahead where an address asks for nothing known', () => {
    expect([stockDays('7'), stockDays('8'), stockDays('')]).toEqual([7, 30, 30])
  })
})
