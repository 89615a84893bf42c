import { beforeAll, expect, test } from 'vitest'
import { OUTFIT } from '@/lib/access/viewer'
import type { WearStanding } from '@/lib/domain/logbook/wear-standing'
import { wellWear } from '@/lib/records/well-wear'
import { loadDemo } from '@/seed'
import { freshDb } from '../setup/fresh-db'

const TODAY = '2026-11-20'
const wear = new Map<string, WearStanding>()

beforeAll(async () => {
  const db = await freshDb()
  await loadDemo(db, `${TODAY}T12:00:00.000Z`, TODAY)
  const wells = db.sqlite.prepare('SELECT "id","name" FROM "Well"').all() as { id: string; name: string }[]
  for (const { id, name } of wells) {
    const found = wellWear(db, OUTFIT, id)
    if (found) wear.set(name, found.wear)
  }
})

const of = (name: string): WearStanding => {
  const standing = wear.get(name)
  if (!standing) throw new Error(`no well ${name}`)
  return standing
}

function brushWords(name: string): string {
  const { brushes } = of(name)
  if (brushes.kind !== 'known' || brushes.forecast.kind !== 'date') throw new Error(JSON.stringify(brushes))
  return [brushes.forecast.why, ...brushes.forecast.warnings].join('; ')
}

test('no number of any well of the demo is not a number, and none is beyond what its gauge can show', () => {
  expect(wear.size).toBe(64)
  for (const [name, standing] of wear) {
    expect(holesIn(standing), name).toEqual([])
    const { cartridge } = standing
    if (cartridge.kind !== 'known' || cartridge.course.kind !== 'course') continue
    for (const { readPa } of cartridge.course.points) expect(readPa).toBeLessThan(400_000)
  }
})

function holesIn(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) => holesIn(inner, `${path}.${key}`))
}

test('a cartridge is blinded by iron bloom, and another is read often enough to be dated', () => {
  const { cartridge } = of('Glasshouse 2')
  if (cartridge.kind !== 'known' || cartridge.course.kind !== 'course') throw new Error('no course')
  expect(cartridge.course.blinding).toMatchObject({ certain: true })
  expect(cartridge.forecast).toMatchObject({
    kind: 'date',
    warnings: [expect.stringContaining('the iron bloom of')],
  })
  const read = of('School Yard').cartridge
  expect(read.kind === 'known' && read.forecast.kind).toBe('date')
})

test('brushes wear unevenly on one well and suddenly on another', () => {
  expect(brushWords('Dairy Road 11')).toContain('unevenly')
  expect(brushWords('Retreat Hill')).toContain('twice as fast')
})

test('run hours are reckoned from volume, or from the sun where no meter is, and said so', () => {
  expect(brushWords('Tollefsen House')).toContain('volume and flow')
  expect(brushWords('Red Clay 3')).toContain('hours of sun')
})

test('suction lift runs out in a month on one well', () => {
  const { lift } = of('Larch 2')
  expect(lift.kind === 'year' && lift.tightest.spareM).toBeLessThan(0)
})
