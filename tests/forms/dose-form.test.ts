import { describe, expect, test } from 'vitest'
import { knownWater } from '@/lib/domain/water/known-water'
import { readDose } from '@/lib/forms/dose-form'
import { readNoticeContact } from '@/lib/forms/notice-contact'
import { readSampling } from '@/lib/forms/sampling-form'
import tables from '../published/data/water/chlorination.json'

const NOTHING = knownWater(
  {
    wellDepthM: null,
    casingBoreM: null,
    casingOutsideM: null,
    pitDiameterM: null,
    pitLengthM: null,
    pitWidthM: null,
    gravelPorosity: null,
    intakeDepthM: null,
    storageM3: null,
  },
  null,
)
const CASING_ONLY = {
  reckon: '1',
  gravel: 'no',
  dropBore: '0',
  dropLength: '0',
  linesBore: '0',
  linesLength: '0',
  tank: '0',
  contact: '12',
}
const dose = (fields: Record<string, string>) => {
  const reading = readDose({ ...CASING_ONLY, ...fields }, NOTHING, 'us')
  if (reading.answer?.kind !== 'dose') throw new Error(JSON.stringify(reading))
  return { ...reading, answer: reading.answer }
}
const rowsOf = (id: string) =>
  (tables as unknown as { id: string; rows: Record<string, number>[] }[]).find((table) => table.id === id)
    ?.rows ?? []

describe('the dose as typed', () => {
  /** 327 IAC 8-3.4-24, Table 24-1 (Indiana): 50 mg/L over 100 ft, 65 % granules in ounces; its 5 in row is printed for 5.1 in. */
  test.each(rowsOf('IN-327').filter((row) => row.casingIn !== 5))(
    'gives the Indiana table for $casingIn in',
    (row) => {
      const { answer } = dose({
        bore: String(row.casingIn),
        column: '100',
        product: 'solid',
        strength: '65',
        target: '50',
      })
      expect(answer.product.unit).toBe('g')
      expect(Math.abs((row.caOCl65_oz ?? 0) / (answer.product.amount / 28.3495) - 1)).toBeLessThanOrEqual(
        0.035,
      )
    },
  )

  test('gives the CDC dug well of 5 ft with 30 ft of water: 135 cups of 5.25 % for 100 mg/L', () => {
    const { answer, step } = dose({
      bore: '5 ft',
      column: '30',
      product: 'liquid',
      strength: '5.25',
      target: '100',
    })
    expect(answer.product.amount / 236.588).toBeCloseTo(135 / 1.005, 0)
    expect(answer.doubts.length).toBeGreaterThan(0)
    expect(step).toEqual({
      doseTarget: '100',
      doseStrength: '5.25',
      doseContact: '12',
      doseVolume: '31.77 L',
    })
  })

  test('counts whole tablets, up, by the weight on the label', () => {
    const typed = { bore: '8', column: '10', product: 'solid', strength: '65', target: '100' }
    const { answer, tablets } = dose({ ...typed, tabletG: '2' })
    expect(tablets).toBe(Math.ceil(answer.product.amount / 2))
    expect(dose(typed).tablets).toBeNull()
  })
})

describe('the calculator asks', () => {
  test('for everything it does not know, field by field, and keeps what was typed', () => {
    const { errors, answer, typed } = readDose(
      { reckon: '1', bore: '8', strength: 'strong', gravel: 'yes' },
      NOTHING,
      'us',
    )
    expect(answer).toBeNull()
    expect(Object.keys(errors).sort()).toEqual(
      [
        'column',
        'contact',
        'dropBore',
        'dropLength',
        'linesBore',
        'linesLength',
        'pitArea',
        'porosity',
        'product',
        'strength',
        'tank',
        'target',
      ].sort(),
    )
    expect(errors.tank).toContain('enter 0 where there is none')
    expect(typed).toMatchObject({ bore: '8', strength: 'strong' })
  })

  test.each(['', '0', '-5', 'about 8', '8,25', '1e3'])('never for a strength of "%s"', (strength) => {
    const { errors, answer } = readDose(
      { ...CASING_ONLY, bore: '8', column: '10', product: 'liquid', strength, target: '100' },
      NOTHING,
      'us',
    )
    expect(answer).toBeNull()
    expect(errors.strength).toContain('label')
  })

  test('fills in what the register knows in the units of the reader, and no strength', () => {
    const known = knownWater(
      {
        wellDepthM: 6,
        casingBoreM: 0.2,
        casingOutsideM: null,
        pitDiameterM: null,
        pitLengthM: 2,
        pitWidthM: 1.5,
        gravelPorosity: 0.35,
        intakeDepthM: 5.5,
        storageM3: 1,
      },
      2.4,
    )
    const { typed, asked } = readDose({}, known, 'metric')
    expect(asked).toBe(false)
    expect(typed).toMatchObject({
      bore: '200',
      column: '3.6',
      pitArea: '3',
      porosity: '35',
      tank: '1000',
      gravel: 'yes',
    })
    expect(typed.strength).toBeUndefined()
  })

  test('a water level below the bottom is offered as nothing, not as less than nothing', () => {
    expect(
      knownWater(
        {
          ...NOTHING,
          wellDepthM: 3,
          pitDiameterM: 2,
          pitLengthM: null,
          pitWidthM: null,
          intakeDepthM: null,
          storageM3: null,
        },
        4,
      ),
    ).toMatchObject({
      waterColumnM: null,
      pitAreaM2: expect.closeTo(Math.PI, 9),
    })
  })
})

describe('the sampling sheet as asked for', () => {
  test('takes day and time together, says what is wrong, and falls back to what is due', () => {
    expect(readSampling({ on: '2026-11-20', at: '09:30', groups: ['metals'] }, ['bacteria'])).toMatchObject({
      groups: ['metals'],
      sampledAt: '2026-11-20T09:30',
      errors: {},
    })
    expect(readSampling({ at: '09:30' }, ['bacteria'])).toMatchObject({
      groups: ['bacteria'],
      sampledAt: null,
      errors: { on: 'Enter the day too' },
    })
    expect(readSampling({ on: '2026-11-20', setup: '90' }, []).errors.setup).toContain('from 0 to 24')
  })
})

describe('whom a notice names', () => {
  test('takes a phone number for one, an address for an address, and what was typed over both', () => {
    expect(readNoticeContact({}, { name: 'Fernhollow', contact: '555 010 0100' })).toEqual({
      name: 'Fernhollow',
      phone: '555 010 0100',
      address: '',
    })
    expect(readNoticeContact({}, { name: 'Fernhollow', contact: 'desk@fernhollow.example' }).phone).toBe('')
    expect(readNoticeContact({ phone: '555-0199' }, { name: 'F', contact: '555 010 0100' }).phone).toBe(
      '555-0199',
    )
  })
})
