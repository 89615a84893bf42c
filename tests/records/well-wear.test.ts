import { beforeAll, describe, expect, test } from 'vitest'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { toSi, type UnitId } from '@/lib/domain/quantity'
import { addDays } from '@/lib/domain/quantity/day'
import type { Db } from '@/lib/records/db'
import { addDuty } from '@/lib/records/duties'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { wellWear } from '@/lib/records/well-wear'
import { createWell, wellPage } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const BEGUN = '2025-01-10'

const typed = (value: number, unit: UnitId) => ({ si: toSi(value, unit), typed: `${value} ${unit}` })
const duty = {
  consequence: 'supply' as const,
  everyRunS: null,
  everyM3: null,
  lastDoneOn: BEGUN,
  typed: {},
}

/** A visit every thirty days: the drop doubles each 40 m³, brushes wear 0.6 mm each 100 h, the table stands at 2 m. */
function visit(n: number): Fact[] {
  const volumeM3 = 20 * n
  const drop = 20 * 2 ** (volumeM3 / 40)
  return [
    { kind: 'level-reading', level: typed(2, 'm'), state: 'rest' },
    { kind: 'level-reading', level: typed(3, 'm'), state: 'pumping' },
    { kind: 'flow-reading', flow: typed(24, 'L/min') },
    { kind: 'meter-reading', meter: 'volume', reading: typed(volumeM3, 'm3'), explained: null },
    { kind: 'meter-reading', meter: 'hours', reading: typed(100 * n, 'h'), explained: null },
    { kind: 'pressure-reading', before: typed(200 + drop, 'kPa'), after: typed(200, 'kPa') },
    { kind: 'electrical-reading', volts: typed(48, 'V'), amps: typed(6, 'A') },
    { kind: 'brush-length', lengths: [typed(19 - 0.6 * n, 'mm'), typed(19 - 0.5 * n, 'mm')] },
  ]
}

async function wornWell(db: Db, place: { altitudeM: number | null; liftM: number | null }): Promise<string> {
  const made = await createWell(
    db,
    installer,
    { ...bareWell('W1'), ...place, ownerName: 'Orla Finch', wellDepthM: 6, installedOn: BEGUN },
    AT,
  )
  if (made.kind !== 'stored') throw new Error(made.kind)
  await addDuty(
    db,
    installer,
    made.id,
    {
      ...duty,
      key: 'change-cartridge',
      name: 'Change cartridge',
      everyMonths: 6,
      condition: 'pressure_drop',
      conditionLimitSi: toSi(140, 'kPa'),
    },
    AT,
  )
  await addDuty(
    db,
    installer,
    made.id,
    {
      ...duty,
      key: 'replace-brushes',
      name: 'Replace brushes',
      everyMonths: null,
      condition: 'brush_length',
      conditionLimitSi: toSi(9, 'mm'),
    },
    AT,
  )
  const drafts = [0, 1, 2, 3, 4].flatMap((n) => {
    const visitId = newId()
    return visit(n).map((payload) => ({
      id: newId(),
      wellId: made.id,
      visitId,
      occurredOn: addDays(BEGUN, 30 * n),
      occurredTime: null,
      byName: 'Joss',
      supersedes: null,
      withdraws: null,
      payload,
    }))
  })
  await record(db, technician, drafts, AT, TODAY)
  return made.id
}

let db: Db
let id: string
beforeAll(async () => {
  db = await freshDb()
  id = await wornWell(db, { altitudeM: 300, liftM: 1 })
})

describe('wear and pump of one well', () => {
  test('says of both parts the day on which the stored due dates rest', () => {
    const wear = wellWear(db, technician, id)?.wear
    const limits = wellPage(db, technician, id)?.standing?.duties.flatMap((one) => one.limits) ?? []
    const measured = limits.filter(({ basis }) => basis === 'condition').map(({ due }) => due)
    const told = [wear?.cartridge, wear?.brushes].map((part) =>
      part?.kind === 'known' && part.forecast.kind === 'date' ? part.forecast.on : null,
    )
    expect(told).not.toContain(null)
    expect([...told].sort()).toEqual([...measured].sort())
  })

  test('draws the course of both through every reading', () => {
    const wear = wellWear(db, technician, id)?.wear
    const { cartridge, brushes } = wear ?? {}
    if (cartridge?.kind !== 'known' || cartridge.course.kind !== 'course') throw new Error('no cartridge')
    expect(cartridge.course.by).toBe('volume')
    expect(cartridge.course.points.at(-1)?.used).toBeCloseTo(80, 6)
    if (brushes?.kind !== 'known' || brushes.course.kind !== 'course') throw new Error('no brushes')
    const { points, lifeLow, lifeUse, lifeHigh } = brushes.course
    expect(points.at(-1)?.used).toBeCloseTo(400, 6)
    // (19 - 9) mm at 0.6 mm each 100 h: 1,667 h.
    expect(lifeLow).toBeLessThan(1667)
    expect(lifeHigh).toBeGreaterThan(1667)
    expect(lifeUse).toBeGreaterThan(lifeLow)
  })

  test('holds the pump against itself: nothing changed but the gauge', () => {
    const pump = wellWear(db, technician, id)?.wear.pump
    expect(pump?.reference?.on).toBe(BEGUN)
    expect(pump?.now?.on).toBe(addDays(BEGUN, 120))
    // 3 m of water, 1 m of lift and 220 kPa on the gauge.
    expect(pump?.reference?.headM).toBeCloseTo(4 + 220_000 / 9806.65, 3)
    expect(pump?.evidence.displacement).toMatchObject({ kind: 'evidence', says: 'not-pump' })
    expect(pump?.lacking).toEqual([])
  })

  test('tells the tightest month of those that are known, and what it leaves out', () => {
    const lift = wellWear(db, technician, id)?.wear.lift
    if (lift?.kind !== 'year') throw new Error('no lift')
    expect(lift.unknown).toBe(7)
    expect(lift.drawdownM).toBeCloseTo(1, 1)
    expect(lift.cartridge).toEqual({ dropPa: 0, says: 'behind the pump' })
    // Air at 300 m less vapour at 15 °C is 9.8 m; less 3 m for the pump, 1 m of lift, 1 m of drawdown and 2 m of level.
    expect(lift.tightest.spareM).toBeGreaterThan(2.2)
    expect(lift.tightest.spareM).toBeLessThan(2.8)
  })

  test('says what to enter where the register is silent', async () => {
    const other = await freshDb()
    const bare = await wornWell(other, { altitudeM: null, liftM: null })
    const wear = wellWear(other, installer, bare)?.wear
    expect(wear?.lift).toEqual({
      kind: 'cannot-say',
      enter: ['the altitude (edit the well)', 'the lift from level ground to the pump (edit the well)'],
    })
    expect(wear?.pump.lacking).toEqual(['the lift to the pump (in the register)'])
    expect(wear?.pump.evidence.centrifugal.kind).toBe('cannot-say')
  })

  test('says nothing of a well without readings, and is there for nobody who may not see it', async () => {
    const made = await createWell(db, installer, bareWell('W2'), AT)
    if (made.kind !== 'stored') throw new Error(made.kind)
    const wear = wellWear(db, installer, made.id)?.wear
    expect([wear?.cartridge.kind, wear?.brushes.kind, wear?.lift.kind]).toEqual(Array(3).fill('cannot-say'))
    expect(wear?.prime.lookAt).toBe('nothing')
    expect(wellWear(db, owner(null), id)).toBeNull()
    expect(wellWear(db, owner('another household'), id)).toBeNull()
    expect(wellWear(db, installer, 'no such well')).toBeNull()
  })
})
