import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Remedy, remedies, sensitivity, simulateYear, supplyResult } from '@/lib/domain/pump/supply'
import { anyPlan, cabin } from './plans'

const unknown = { newPumpOverNow: null, baselineWellM3PerS: null }
const of = (found: Remedy[], kind: Remedy['kind']) => found.find((remedy) => remedy.kind === kind)
const missing = (plan: typeof cabin) => supplyResult(simulateYear(plan), plan.tankM3).missingM3

describe('what would mend a lack', () => {
  test('is not asked where nothing lacks', () => {
    expect(remedies(cabin, unknown)).toEqual([])
  })

  test('for a small tank is a bigger one, no bigger than it must be', () => {
    const small = { ...cabin, tankM3: 0.8, startM3: 0.8 }
    const found = of(remedies(small, unknown), 'bigger-tank')
    if (found?.verdict !== 'ends it' || found.tankM3 === undefined) throw new Error(JSON.stringify(found))
    expect(missing({ ...small, tankM3: found.tankM3, startM3: found.tankM3 })).toBe(0)
    expect(missing({ ...small, tankM3: 0.95 * found.tankM3, startM3: 0.95 * found.tankM3 })).toBeGreaterThan(
      0,
    )
  })

  test('for a clogged well is its rehabilitation, and no tank', () => {
    const clogged = { ...cabin, wellM3PerS: new Array<number>(12).fill(1e-5) }
    const found = remedies(clogged, { ...unknown, baselineWellM3PerS: cabin.wellM3PerS })
    expect(of(found, 'rehabilitation')).toMatchObject({ verdict: 'ends it', shortDays: 0 })
    expect(of(found, 'bigger-tank')?.verdict).not.toBe('ends it')
    expect(of(found, 'more-panels')?.verdict).toBe('does not help')
    expect(of(found, 'pump-service')).toMatchObject({ verdict: 'cannot say' })
  })

  test('for a worn pump is its service', () => {
    const worn = { ...cabin, drive: { kind: 'mains' as const, flowM3PerS: 1.2e-5 } }
    const found = remedies(worn, { ...unknown, newPumpOverNow: 3 })
    expect(of(found, 'pump-service')).toMatchObject({ verdict: 'ends it' })
    expect(of(found, 'more-panels')).toBeUndefined()
    expect(of(found, 'rehabilitation')).toMatchObject({ verdict: 'cannot say' })
  })

  test('for a stop with worn brushes is an earlier visit', () => {
    const stops = { ...cabin, pumpOff: [{ from: '2026-07-10', to: '2026-07-30' }] }
    expect(of(remedies(stops, unknown), 'earlier-brush-service')).toMatchObject({ verdict: 'ends it' })
  })

  test('a pump that gave less when new is a broken assumption', () => {
    const dry = { ...cabin, startM3: 0, tankM3: 0 }
    expect(() => remedies(dry, { ...unknown, newPumpOverNow: 0.9 })).toThrow(RangeError)
  })

  test('never makes any year worse', () => {
    fc.assert(
      fc.property(anyPlan, (plan) => {
        const now = missing(plan)
        for (const remedy of remedies(plan, { newPumpOverNow: 1.3, baselineWellM3PerS: cabin.wellM3PerS })) {
          if (remedy.verdict !== 'cannot say') expect(remedy.missingM3).toBeLessThanOrEqual(now + 1e-9)
        }
      }),
      { numRuns: 10 },
    )
  })
})

describe('how the year turns with what is only roughly known', () => {
  const tight = { ...cabin, tankM3: 1.2, startM3: 1.2 }

  test('is told for each input, the one that matters most first', () => {
    const found = sensitivity(tight)
    expect(found.map((s) => s.input).sort()).toEqual(['demand', 'pump', 'sun', 'tank', 'well'])
    const swings = found.map((s) => Math.abs(s.larger.missingM3 - s.smaller.missingM3))
    expect(swings).toEqual([...swings].sort((a, b) => b - a))
    const demand = found.find((s) => s.input === 'demand')
    expect(demand?.larger.missingM3).toBeGreaterThan(demand?.smaller.missingM3 ?? Number.NaN)
  })

  test('leaves the sun out for mains', () => {
    const found = sensitivity({ ...tight, drive: { kind: 'mains', flowM3PerS: 1e-4 } })
    expect(found.map((s) => s.input)).not.toContain('sun')
  })
})
