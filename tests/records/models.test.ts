import { beforeAll, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import type { Db } from '@/lib/records/db'
import { addDuty } from '@/lib/records/duties'
import {
  cartridgeModel,
  models,
  type PumpModelFields,
  pumpModel,
  saveCartridgeModel,
  savePumpModel,
} from '@/lib/records/models'
import { standingOf } from '@/lib/records/standings'
import { bareWell } from '@/lib/records/well-fields'
import { createWell, updateWell, wellPage } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, technician } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'
const PUMP: PumpModelFields = {
  name: 'Brookline 9',
  type: 'displacement',
  power: 'sun',
  brushNewM: 0.019,
  brushMinimumM: 0.009,
  brushCount: 2,
  brushPart: 'set 9',
  warrantyMonths: 24,
  npshRequiredM: 2.5,
  referenceVolts: 48,
  sheet: [],
  retired: false,
  typed: { brushNewM: '19 mm' },
}
const CARTRIDGE = {
  name: '20 in, 5 micron',
  terminalDropPa: 140_000,
  referenceFlowM3PerS: 0.0004,
  oRing: null,
  warrantyMonths: null,
  retired: false,
  typed: {},
}

let db: Db
beforeAll(async () => {
  db = await freshDb()
})

const stored = (outcome: { kind: string; id?: string }): string => {
  if (outcome.kind !== 'stored' || !outcome.id) throw new Error(outcome.kind)
  return outcome.id
}

describe('models of pumps and cartridges', () => {
  test('are kept once by name, whatever its case and spaces', async () => {
    const id = stored(await savePumpModel(db, installer, null, PUMP, AT))
    const twin = await savePumpModel(db, installer, null, { ...PUMP, name: ' brookline  9' }, AT)
    expect(twin.kind).toBe('name-taken')
    expect(pumpModel(db, installer, id)).toMatchObject({ name: 'Brookline 9', version: 1, retired: 0 })
  })

  test('are changed by one person at a time, with a line in the change record', async () => {
    const id = stored(await saveCartridgeModel(db, installer, null, CARTRIDGE, AT))
    const first = await saveCartridgeModel(
      db,
      installer,
      { id, version: 1 },
      { ...CARTRIDGE, oRing: 'R20' },
      AT,
    )
    const second = await saveCartridgeModel(db, installer, { id, version: 1 }, CARTRIDGE, AT)
    expect([first.kind, second.kind]).toEqual(['stored', 'changed-since'])
    expect(cartridgeModel(db, installer, id)?.oRing).toBe('R20')
    const line = db.sqlite
      .prepare<[string], { action: string; before: string; after: string }>(
        'SELECT "action","before","after" FROM "Change" WHERE "targetId" = ? AND "action" LIKE \'%changed\'',
      )
      .get(id)
    expect(line?.action).toBe('cartridge model changed')
    expect(JSON.parse(line?.before ?? '{}').oRing).toBeNull()
    expect(JSON.parse(line?.after ?? '{}').oRing).toBe('R20')
  })

  test('are the installer’s: a technician reads the list and changes nothing', async () => {
    expect(models(db, technician).pumps.map(({ name }) => name)).toContain('Brookline 9')
    expect(() => savePumpModel(db, technician, null, { ...PUMP, name: 'Other' }, AT)).toThrow(NotAllowed)
    expect(() => pumpModel(db, technician, 'any')).toThrow(NotAllowed)
  })
})

describe('a well that names its models', () => {
  const duty = {
    consequence: 'supply' as const,
    everyMonths: 6,
    everyRunS: null,
    everyM3: null,
    condition: null,
    conditionLimitSi: null,
    lastDoneOn: '2026-01-10',
    typed: {},
  }

  test('takes the ends of its duties from them, until the duty names its own, and hears of their changes', async () => {
    const fields = { ...bareWell('M1'), pumpModel: 'BROOKLINE 9', cartridgeModel: '20 in, 5 micron' }
    const wellId = stored(await createWell(db, installer, fields, AT))
    await addDuty(db, installer, wellId, { ...duty, key: 'change-cartridge', name: 'Change cartridge' }, AT)
    await addDuty(db, installer, wellId, { ...duty, key: 'check-brushes', name: 'Check brushes' }, AT)
    const limitsOf = (key: string) =>
      standingOf(db.sqlite, wellId)
        ?.duties.find((one) => one.key === key)
        ?.limits.map(({ basis, limit }) => ({
          basis,
          limit,
        }))
    expect(limitsOf('change-cartridge')).toContainEqual({ basis: 'condition', limit: 140_000 })
    expect(limitsOf('check-brushes')).toEqual([{ basis: 'months', limit: undefined }])
    const id = wellPage(db, installer, wellId)?.well.cartridgeModelId ?? ''
    const version = cartridgeModel(db, installer, id)?.version ?? 0
    await saveCartridgeModel(db, installer, { id, version }, { ...CARTRIDGE, terminalDropPa: 100_000 }, AT)
    expect(limitsOf('change-cartridge')).toContainEqual({ basis: 'condition', limit: 100_000 })
  })

  test('makes a model of a new name, of which nothing else is known, and keeps it when it is emptied', async () => {
    const wellId = stored(await createWell(db, installer, { ...bareWell('M2'), pumpModel: 'Heron 3' }, AT))
    const page = wellPage(db, installer, wellId)
    expect(page?.models).toEqual({ pump: 'Heron 3', cartridge: null })
    expect(pumpModel(db, installer, page?.well.pumpModelId ?? '')).toMatchObject({ type: null, sheet: '[]' })
    await updateWell(db, installer, wellId, 1, bareWell('M2'), AT)
    expect(wellPage(db, installer, wellId)?.models.pump).toBeNull()
    expect(models(db, installer).pumps.find(({ name }) => name === 'Heron 3')?.wells).toBe(0)
  })
})
