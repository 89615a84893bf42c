import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { DUTY_LIBRARY } from '@/lib/domain/upkeep/library'
import { readCoordinate } from '@/lib/forms/coordinate'
import { dutyFieldsOf, dutyForm, dutyFormTexts, limitWords, templateTexts } from '@/lib/forms/duty-form'
import { offeredText } from '@/lib/forms/fields'
import { parseForm } from '@/lib/forms/form'
import { readDueQuery, readWellsQuery } from '@/lib/forms/list-filters'
import { partForm } from '@/lib/forms/part-form'
import { clash } from '@/lib/forms/register-state'
import { wellFieldsOf, wellForm } from '@/lib/forms/well-form'
import { type StoredWell, wellFormTexts } from '@/lib/forms/well-form-texts'
import { WELL_QUANTITIES } from '@/lib/forms/well-quantities'

const TODAY = '2026-11-20'
const FOOT = 0.3048

function send(fields: Record<string, string>): FormData {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.set(name, value)
  return form
}
const well = (fields: Record<string, string>, system: 'us' | 'metric' = 'us') =>
  parseForm(wellForm(system, TODAY), send({ label: 'A', ...fields }))

function accepted(fields: Record<string, string>, system: 'us' | 'metric' = 'us') {
  const parsed = well(fields, system)
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.state.errors))
  return wellFieldsOf(parsed.value, parsed.typed, null)
}
function refused(fields: Record<string, string>): Record<string, string> {
  const parsed = well(fields)
  if (parsed.ok) throw new Error('the form was accepted')
  return parsed.state.errors
}

describe('the form of a well', () => {
  test('reads a bare number in the unit shown, keeps what was typed with it, and leaves blanks unknown', () => {
    const fields = accepted({
      wellDepthM: '19.4',
      casingBoreM: '200 mm',
      pitDiameterM: `4' 8"`,
      demandM3PerS: '',
    })
    expect(fields.wellDepthM).toBeCloseTo(19.4 * FOOT, 12)
    expect(fields.casingBoreM).toBeCloseTo(0.2, 12)
    expect(fields.pitDiameterM).toBeCloseTo(4 * FOOT + 8 * 0.0254, 12)
    expect(fields.demandM3PerS).toBeNull()
    expect(fields.typed).toEqual({ wellDepthM: '19.4 ft', casingBoreM: '200 mm', pitDiameterM: `4' 8"` })
    expect(accepted({ wellDepthM: '6' }, 'metric').wellDepthM).toBe(6)
  })

  test.each([
    [{ label: '  ' }, 'label', 'Enter the label that you know the well by, such as W012'],
    [{ closedFrom: '15 Nov' }, 'closedTo', 'Enter the last day of the closed season too'],
    [{ latitude: '44.2' }, 'longitude', 'Enter the longitude too, or leave both blank'],
    [
      { latitude: '144.2', longitude: '-72' },
      'latitude',
      'The latitude must be in degrees, like 44.26012 or 44° 15′ 36″ N',
    ],
    [
      { casingBoreM: '9', casingOutsideM: '8' },
      'casingOutsideM',
      'The casing cannot be narrower outside than its bore',
    ],
    [{ wellDepthM: '20', intakeDepthM: '21' }, 'intakeDepthM', 'The intake cannot be deeper than the well'],
    [{ gravelPorosity: '0.35' }, 'gravelPorosity', '"0.35" is too small: give 5 % or more'],
    [{ installedOn: '2027-01-01' }, 'installedOn', 'The day of installation must be today or earlier'],
    [{ ownerPhone: '555' }, 'ownerName', 'Enter whose phone or email this is'],
    [
      { installedOn: '2020-05-01', retiredOn: '2019-05-01' },
      'retiredOn',
      'A well cannot be retired before it was installed',
    ],
  ])('refuses %j with a sentence at %s', (fields, name, sentence) => {
    expect(refused(fields)[name]).toBe(sentence)
  })

  test.each([
    ['11-15', '11-15'],
    ['15 Nov', '11-15'],
    ['November 15', '11-15'],
    ['29 Feb', '02-29'],
  ])('reads the day of a year %j', (text, day) => {
    expect(accepted({ closedFrom: text, closedTo: '1 Apr' })).toMatchObject({
      closedFrom: day,
      closedTo: '04-01',
    })
  })
  test.each(['11/15', '30 Feb', 'winter'])('refuses the day of a year %j', (text) => {
    expect(refused({ closedFrom: text, closedTo: '1 Apr' }).closedFrom).toMatch(/must be a month and a day/)
  })

  test('opened and sent back untouched changes nothing, in whichever units it was typed or is read', () => {
    const names = Object.keys(WELL_QUANTITIES) as (keyof typeof WELL_QUANTITIES)[]
    const amount = fc.option(fc.tuple(fc.double({ min: 0.5, max: 0.6, noNaN: true }), fc.boolean()))
    const system = fc.constantFrom('us' as const, 'metric' as const)
    fc.assert(
      fc.property(fc.tuple(...names.map(() => amount)), system, (amounts, reader) => {
        const numbers = names.map((name, i) => [name, amounts[i]?.[0] ?? null])
        const typed = names.flatMap((name, i) => (amounts[i]?.[1] ? [[name, 'about two spades deep']] : []))
        const stored = {
          ...accepted({ latitude: '44.123456789', longitude: '72 34 32 W', notes: 'x' }),
          ...Object.fromEntries(numbers),
          typed: JSON.stringify(Object.fromEntries(typed)),
          extra: '{"Colour":"green"}',
        } as StoredWell
        const texts = wellFormTexts(stored, { name: 'Orla', phone: null, email: null }, reader, {
          pump: null,
          cartridge: null,
        })
        // Depths drawn at random need not fit into each other: that is another rule, tested above.
        const parsed = parseForm(
          wellForm(reader, TODAY),
          send({ ...texts, intakeDepthM: '', casingBoreM: '', casingOutsideM: '' }),
        )
        if (!parsed.ok) throw new Error(JSON.stringify(parsed.state.errors))
        const fields = wellFieldsOf(
          parsed.value,
          { ...parsed.typed, ...texts },
          { well: stored, system: reader },
        )
        for (const name of [...names, 'latitude', 'longitude'] as const)
          expect(fields[name]).toBe(stored[name])
        expect({ typed: fields.typed, extra: fields.extra }).toEqual({
          typed: JSON.parse(stored.typed),
          extra: { Colour: 'green' },
        })
      }),
      { numRuns: 100 },
    )
  })
})

describe('the text that a field offers', () => {
  test.each([
    ['as typed, without the unit that stands beside the field', 19.4 * FOOT, '19.4 ft', '19.4'],
    ['as typed, whatever the spelling of that unit', 6 * FOOT, '6 feet', '6'],
    ['as typed with another unit', 2.2, '2.2 m', '2.2 m'],
    ['as typed in feet and inches', 7 * FOOT + 4 * 0.0254, `7' 4"`, `7' 4"`],
    ['in full where the text was typed for other units', 12, '12', '39.3700787402'],
    ['in full where nothing was typed', 12.4 * FOOT, undefined, '12.4'],
    ['blank where nothing is known', null, undefined, ''],
  ] as const)('is %s', (_, si, typed, text) => {
    expect(offeredText(si, typed, 'depth', 'us')).toBe(text)
  })
})

describe('a coordinate', () => {
  test.each([
    ['44.26012', 'latitude', 44.26012],
    ['-72.57543', 'longitude', -72.57543],
    ['72.57543 W', 'longitude', -72.57543],
    ['44° 15′ 36″ N', 'latitude', 44.26],
    ["44° 15.6' N", 'latitude', 44.26],
    ['72 34 30 w', 'longitude', -72.575],
    ['0', 'latitude', 0],
    ['33 S', 'latitude', -33],
  ] as const)('%j is read as %s %d', (text, axis, degrees) => {
    expect(readCoordinate(text, axis)).toBeCloseTo(degrees, 10)
  })
  test.each([
    ['91', 'latitude'],
    ['44 N', 'longitude'],
    ['-44 N', 'latitude'],
    ['44 61 0 N', 'latitude'],
    ['44.5 15 N', 'latitude'],
    ['44,26', 'latitude'],
    ['the barn', 'latitude'],
  ] as const)('%j is refused as %s', (text, axis) => {
    expect(readCoordinate(text, axis)).toBeNull()
  })
})

describe('the form of a duty', () => {
  const duty = (fields: Record<string, string>) =>
    parseForm(dutyForm('us', TODAY), send({ name: 'Own duty', consequence: 'wear', ...fields }))

  test('reads its limits, months as whole numbers and the rest with units', () => {
    const parsed = duty({
      everyMonths: '6',
      everyRunS: '1,000',
      everyM3: '20000',
      dropLimit: '20',
      lastDoneOn: '27 Mar 2026',
    })
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.state.errors))
    const fields = dutyFieldsOf(parsed.value)
    expect(fields).toMatchObject({
      key: 'own-duty',
      everyMonths: 6,
      everyRunS: 3_600_000,
      condition: 'pressure_drop',
      lastDoneOn: '2026-03-27',
      typed: { everyRunS: '1,000 h', everyM3: '20000 gal', conditionLimitSi: '20 psi' },
    })
    expect(fields.everyM3).toBeCloseTo(20_000 * 0.003785411784, 9)
    expect(fields.conditionLimitSi).toBeCloseTo(137_895.146, 2)
  })

  test.each([
    [{ name: '---' }, 'name', 'Enter what is to be done, such as Change sediment cartridge'],
    [{ consequence: 'boredom' }, 'consequence', 'Choose what suffers when this is left undone'],
    [{ everyMonths: '1.5' }, 'everyMonths', 'The months must be a whole number from 1 to 240'],
    [{ everyMonths: '0' }, 'everyMonths', 'The months must be a whole number from 1 to 240'],
    [{ everyRunS: '0' }, 'everyRunS', 'The run hours must be more than 0, or blank'],
    [
      { brushLimit: '0.3', dropLimit: '20' },
      'dropLimit',
      'One duty holds one measured condition: leave all but one of brush length, pressure drop blank',
    ],
    [
      { lastDoneOn: '03/04/2025' },
      'lastDoneOn',
      '"03/04/2025" can be 3 Apr 2025 or 4 Mar 2025: say which comes first, day or month, or write it like 2025-04-03',
    ],
  ])('refuses %j with a sentence at %s', (fields, name, sentence) => {
    const parsed = duty(fields)
    expect(parsed.ok ? {} : parsed.state.errors).toMatchObject({ [name]: sentence })
  })

  test.each(DUTY_LIBRARY.map((template) => [template.name, template] as const))(
    'filled from the library with "%s" is accepted and gives its limits back',
    (_, template) => {
      for (const system of ['us', 'metric'] as const) {
        const parsed = parseForm(dutyForm(system, TODAY), send(templateTexts(template, system)))
        if (!parsed.ok) throw new Error(JSON.stringify(parsed.state.errors))
        const fields = dutyFieldsOf(parsed.value)
        expect(fields).toMatchObject({
          name: template.name,
          everyMonths: template.everyMonths,
          condition: template.condition?.kind ?? null,
        })
        expect(fields.everyRunS).toBe(template.everyRunH === null ? null : template.everyRunH * 3600)
        // The library's pressure is 20 psi to the pascal; shown rounded, it may differ by the rounding alone.
        if (template.condition)
          expect((fields.conditionLimitSi ?? 0) / template.condition.limitSi).toBeCloseTo(1, 2)
        const stored = { ...fields, typed: JSON.stringify(fields.typed) }
        expect(dutyFormTexts(stored, system)).toEqual(templateTexts(template, system))
      }
    },
  )

  test('says its limits in words, and nothing where none is set', () => {
    const none = {
      everyMonths: null,
      everyRunS: null,
      everyM3: null,
      condition: null,
      conditionLimitSi: null,
    }
    expect(limitWords(none, 'us')).toBeNull()
    const some = {
      ...none,
      everyMonths: 6,
      everyRunS: 3_600_000,
      condition: 'pressure_drop',
      conditionLimitSi: 137_895,
    }
    expect(limitWords(some, 'us')?.replaceAll('\u00a0', ' ')).toBe(
      'every 6 months or 1,000 h of running, or at a pressure drop of 20.0 psi',
    )
  })
})

test('a part cannot be removed before it was fitted, nor its warranty end before', () => {
  const parsed = parseForm(
    partForm(TODAY),
    send({ kind: 'pump', fittedOn: '2024-05-01', removedOn: '2024-04-30', warrantyUntil: '2020-01-01' }),
  )
  expect(parsed.ok ? {} : parsed.state.errors).toEqual({
    removedOn: 'A part cannot be removed before it was fitted',
    warrantyUntil: 'A warranty cannot end before the part was fitted',
  })
})

test('a clash keeps what was typed, shows what is stored where it differs, and builds on the newer version', () => {
  const state = clash(
    { name: 'Mine', area: 'Same', version: '1' },
    { name: 'Theirs', area: 'Same ', notes: '' },
    2,
  )
  expect(state.typed).toEqual({ name: 'Mine', area: 'Same', version: '2' })
  expect(state.theirs).toEqual({ name: 'Theirs' })
  expect(state.message).toMatch(/Nothing of yours was stored yet/)
})

describe('the query of a list', () => {
  test('filters by what can be read, tells what cannot, and ignores the unknown', () => {
    const query = readDueQuery({
      duty: 'x',
      consequence: 'boredom',
      from: '27 Mar 2026',
      to: '31/02/2026',
      group: ['past', 'week'],
      evil: '1',
    })
    expect(query.filter).toEqual({ dutyKey: 'x', from: '2026-03-27' })
    expect(query).toMatchObject({ group: 'past', after: null, filtered: true })
    expect(Object.keys(query.errors)).toEqual(['to'])
    expect(query.texts).toMatchObject({ to: '31/02/2026' })
  })

  test('says when the last day is before the first', () => {
    expect(readDueQuery({ from: '2026-03-27', to: '2026-03-26' }).errors).toEqual({
      to: 'The last day must not be before the first',
    })
  })

  test('of wells takes any text without a complaint', () => {
    fc.assert(
      fc.property(
        fc.dictionary(fc.constantFrom('q', 'area', 'owner', 'retired', 'after'), fc.string()),
        (params) => {
          const { filter, texts } = readWellsQuery(params)
          expect(texts.q.length).toBeLessThanOrEqual(200)
          expect(typeof filter.retired).toBe('boolean')
        },
      ),
    )
  })
})
