import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { appraise } from '@/lib/domain/logbook/appraise'
import { currentFacts, type Entry } from '@/lib/domain/logbook/entries'
import { type Equipment, NO_EQUIPMENT } from '@/lib/domain/logbook/equipment'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { RECKON_SETTINGS } from '@/lib/domain/logbook/settings'
import { wearStanding } from '@/lib/domain/logbook/wear-standing'
import { mostUrgent } from '@/lib/domain/logbook/wear-words'
import { addDays } from '@/lib/domain/quantity/day'
import { CONDITION_KINDS, type ConditionKind } from '@/lib/domain/upkeep/types'

const START = '2021-01-01'
const si = (value: number) => ({ si: value, typed: String(value) })
const amount = (max: number) => fc.double({ min: 0, max, noNaN: true }).map(si)

/** Anything that a gauge, a rule or a tired hand could have written, contradictory and out of order. */
const anyFact: fc.Arbitrary<Fact> = fc.oneof(
  fc.record({ kind: fc.constant('flow-reading' as const), flow: amount(2e-3) }),
  fc.record({
    kind: fc.constant('level-reading' as const),
    level: fc.double({ min: -2, max: 12, noNaN: true }).map(si),
    state: fc.constantFrom('rest' as const, 'pumping' as const),
  }),
  fc.record({
    kind: fc.constant('meter-reading' as const),
    meter: fc.constantFrom('hours' as const, 'volume' as const),
    reading: amount(5e6),
    explained: fc.constant(null),
  }),
  fc.record({
    kind: fc.constant('pressure-reading' as const),
    before: fc.double({ min: -5e4, max: 6e5, noNaN: true }).map(si),
    after: fc.double({ min: -5e4, max: 6e5, noNaN: true }).map(si),
  }),
  fc.record({ kind: fc.constant('electrical-reading' as const), amps: amount(30), volts: amount(260) }),
  fc.record({
    kind: fc.constant('brush-length' as const),
    lengths: fc.array(amount(0.03), { minLength: 1, maxLength: 4 }),
  }),
  fc.record({
    kind: fc.constant('valve-test' as const),
    before: fc.double({ min: -1e5, max: 6e5, noNaN: true }).map(si),
    after: fc.double({ min: -1e5, max: 6e5, noNaN: true }).map(si),
    held: amount(5000),
  }),
  fc.record({
    kind: fc.constant('event' as const),
    event: fc.constantFrom(
      'cartridge-changed' as const,
      'brushes-changed' as const,
      'pump-replaced' as const,
      'flooded' as const,
      'iron-bloom' as const,
      'prime-lost' as const,
    ),
  }),
)

const entries = fc
  .array(fc.tuple(anyFact, fc.integer({ min: 0, max: 1500 }), fc.integer({ min: 0, max: 400 })), {
    maxLength: 60,
  })
  .map((drawn) =>
    drawn.map(
      ([payload, day, visit], i): Entry => ({
        id: String(i).padStart(6, '0'),
        wellId: 'w',
        visitId: String(visit),
        occurredOn: addDays(START, day),
        occurredTime: null,
        payload,
        supersedes: null,
        withdraws: null,
        byName: null,
      }),
    ),
  )

const maybe = (max: number) => fc.option(fc.double({ min: 0, max, noNaN: true }), { nil: null })
const equipment: fc.Arbitrary<Equipment> = fc
  .record({
    altitudeM: maybe(3000),
    liftM: maybe(6),
    latitude: fc.option(fc.double({ min: -66, max: 66, noNaN: true }), { nil: null }),
    type: fc.constantFrom('centrifugal' as const, 'displacement' as const, null),
    power: fc.constantFrom('sun' as const, 'mains' as const, null),
    npshRequiredM: maybe(8),
    flow: maybe(1e-3),
  })
  .map(({ altitudeM, liftM, latitude, type, power, npshRequiredM, flow }) => ({
    ...NO_EQUIPMENT,
    altitudeM,
    liftM,
    latitude,
    pump: {
      name: 'any',
      type,
      power,
      brushNewM: 0.02,
      brushMinimumM: 0.008,
      brushCount: 2,
      npshRequiredM,
      referenceVolts: null,
      sheet: [],
      brushPart: null,
    },
    reference: { on: START, flowM3PerS: flow, headM: 20, amps: null, volts: 48 },
  }))

const LIMITS: Record<ConditionKind, number> = {
  brush_length: 0.008,
  pressure_drop: 140_000,
  flow_share: 0.75,
  flow: 2e-4,
  lift_margin: 0.5,
}
const duty = (kind: ConditionKind) => ({
  id: kind,
  key: kind,
  name: kind,
  consequence: 'wear' as const,
  everyMonths: 6,
  everyRunS: null,
  everyM3: null,
  condition: { kind, limitSi: LIMITS[kind] },
  lastDoneOn: START,
})
const register = (with_: Equipment) => ({
  installedOn: START,
  retiredOn: null,
  closed: null,
  wellDepthM: 8,
  casingBoreM: null,
  casingOutsideM: null,
  pitDiameterM: null,
  pitLengthM: null,
  pitWidthM: null,
  gravelPorosity: null,
  intakeDepthM: 7,
  demandM3PerS: null,
  storageM3: null,
  equipment: with_,
  duties: CONDITION_KINDS.map(duty),
})

describe('any record at all', () => {
  test('gives a standing: what cannot be measured is said, and the calendar still gives every duty its day', () => {
    fc.assert(
      fc.property(entries, equipment, (lines, with_) => {
        const well = register(with_)
        const standing = appraise(well, lines, RECKON_SETTINGS)
        for (const one of standing.duties) {
          expect(one.due).not.toBeNull()
          const measured = one.limits.find(({ basis }) => basis === 'condition')
          const calendar = one.limits.find(({ basis }) => basis === 'months')
          if (!measured || !calendar?.due) throw new Error(`${one.key} lost a limit`)
          if (measured.due === null) {
            expect(one.due).toBe(calendar.due)
            expect(measured.why.length).toBeGreaterThan(10)
            expect(one.reason.toLowerCase()).toContain(measured.why.toLowerCase().slice(1, 30))
          } else {
            expect(measured.from === null || measured.from <= measured.due).toBe(true)
            expect(measured.to === null || measured.to >= measured.due).toBe(true)
            expect((one.due ?? '9999') <= measured.due).toBe(true)
          }
        }
        const wear = wearStanding(well, currentFacts(lines), standing.yield.capacity)
        expect(mostUrgent(standing.duties, wear, '2026-01-01', 'us').says.length).toBeGreaterThan(10)
      }),
      { numRuns: 120 },
    )
  })
})
