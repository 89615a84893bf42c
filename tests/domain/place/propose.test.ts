import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type ClosingDuty,
  closeStop,
  type DutyDue,
  type Proposal,
  type ProposeSettings,
  pickList,
  proposeRounds,
  type WellDue,
  type WorkDay,
} from '@/lib/domain/place'
import { addDays, daysBetween } from '@/lib/domain/quantity'
import { partsHint, truckList } from '@/lib/domain/upkeep/truck'

const H = 3600
const YARD = { latitude: 44.5, longitude: -72.6 }
const SETTINGS: ProposeSettings = { driving: { roadFactor: 1.35, speedKmH: 50 }, setUpS: 600, soonDays: 30 }
// A Thursday.
const TODAY = '2026-11-26'
const day = (date = TODAY, hours = 8): WorkDay => ({ day: date, startS: 8 * H, endS: (8 + hours) * H })
const duty = (
  name: string,
  consequence: DutyDue['consequence'],
  due: string | null,
  serviceS = 1800,
): DutyDue => ({
  key: name.toLowerCase().replaceAll(' ', '-'),
  name,
  consequence,
  due,
  from: due,
  serviceS,
})
const well = (id: string, duties: DutyDue[], more: Partial<WellDue> = {}): WellDue => ({
  id,
  label: `Well ${id}`,
  at: { latitude: 44.55, longitude: -72.6 },
  closed: null,
  wishes: { window: { notBeforeS: null, doneByS: null }, notOn: [] },
  notes: [],
  duties,
  ...more,
})
const propose = (wells: WellDue[], days: readonly WorkDay[] = [day()]) =>
  proposeRounds(wells, days, YARD, SETTINGS)
const named = (proposal: Proposal) =>
  proposal.days.map((d) => d.stops.map((s) => `${s.wellId}: ${s.duties.map((x) => x.name).join(', ')}`))

describe('a proposal', () => {
  test('says why each stop is there, and what its driving takes off', () => {
    const proposal = propose([
      well('a', [duty('Bacteria sample', 'health', '2026-11-14')], { notes: ['dog'] }),
    ])
    const [stop] = proposal.days[0]?.stops ?? []
    expect(stop?.reasons[0]?.words).toBe('Bacteria sample (health): 12 days past on the first day')
    expect(stop?.reasons[1]?.words).toMatch(/^18 min of driving for this stop$/)
    expect(stop?.worth).toBe((stop?.reasons ?? []).reduce((sum, r) => sum + r.points, 0))
    expect(stop?.notes).toEqual(['dog'])
  })

  test('takes along what falls due soon where the truck is anyhow, and goes nowhere for it alone', () => {
    const soon = duty('Measure static level', 'supply', '2026-12-10')
    const proposal = propose([
      well('a', [duty('Bacteria sample', 'health', '2026-11-14'), soon]),
      well('b', [soon]),
    ])
    expect(named(proposal)).toEqual([['a: Bacteria sample, Measure static level']])
    expect(proposal.days[0]?.stops[0]?.duties.map((d) => d.whileThere)).toEqual([false, true])
  })

  test('keeps away in a closed season, on a refused weekday, and without a coordinate, and says so', () => {
    const late = [duty('Bacteria sample', 'health', '2026-11-01')]
    const proposal = propose([
      well('snow', late, { closed: { from: '11-15', to: '04-15', why: 'snow' } }),
      well('thursday', late, { wishes: { window: { notBeforeS: null, doneByS: null }, notOn: [4] } }),
      well('lost', late, { at: null }),
    ])
    expect(named(proposal)).toEqual([[]])
    expect(proposal.leftOut.map((l) => [l.wellId, l.code])).toEqual([
      ['lost', 'no-coordinate'],
      ['snow', 'closed-season'],
      ['thursday', 'owner-away'],
    ])
    expect(proposal.leftOut[1]?.why).toContain('snow')
  })

  test('puts off to a day of the week on which the owner is there', () => {
    const wishes = { window: { notBeforeS: 10 * H, doneByS: null }, notOn: [4] }
    const proposal = propose(
      [well('a', [duty('Bacteria sample', 'health', TODAY)], { wishes })],
      [day(), day('2026-11-27')],
    )
    expect(named(proposal)).toEqual([[], ['a: Bacteria sample']])
    expect(proposal.days[1]?.stops[0]?.times.beginS).toBe(10 * H)
  })

  test('lets wear wait while health past due finds no room', () => {
    const wells = ['a', 'b', 'c'].map((id) =>
      well(id, [duty('Clean out tank', 'health', '2026-10-01', 3 * H)]),
    )
    const brush = well('d', [duty('Check motor brushes', 'wear', '2026-01-01', 600)])
    const flow = well('e', [duty('Measure pump flow', 'supply', TODAY, 600)])
    const proposal = propose([...wells, brush, flow])
    expect(
      named(proposal)
        .flat()
        .filter((s) => s.includes('tank')),
    ).toHaveLength(2)
    expect(proposal.leftOut.map((l) => l.code).sort()).toEqual(['health-first', 'no-room'])
    expect(named(proposal).flat()).toContain('e: Measure pump flow')
  })

  test('says what could not be done in a day even alone', () => {
    const far = well('far', [duty('Bacteria sample', 'health', '2026-10-01')], {
      at: { latitude: 48, longitude: -72.6 },
    })
    expect(propose([far]).leftOut).toMatchObject([{ wellId: 'far', code: 'too-far' }])
  })

  test('refuses days that are none or out of order', () => {
    expect(() => propose([], [])).toThrow(RangeError)
    expect(() => propose([], [day('2026-11-27'), day()])).toThrow(RangeError)
  })
})

const anyDuty = fc.record({
  name: fc.constantFrom(
    'Bacteria sample',
    'Nitrate sample',
    'Recovery test',
    'Check motor brushes',
    'Replace UV lamp',
  ),
  consequence: fc.constantFrom('health' as const, 'supply' as const, 'wear' as const),
  dueIn: fc.option(fc.integer({ min: -200, max: 90 })),
  serviceS: fc.integer({ min: 5, max: 90 }).map((m) => 60 * m),
})
const anyWell = fc.record({
  north: fc.integer({ min: -30, max: 30 }),
  east: fc.integer({ min: -30, max: 30 }),
  placed: fc.integer({ min: 0, max: 9 }).map((n) => n > 0),
  closed: fc.integer({ min: 0, max: 6 }).map((n) => n === 0),
  notBefore: fc.option(fc.integer({ min: 8, max: 12 })),
  doneBy: fc.option(fc.integer({ min: 11, max: 17 })),
  notOn: fc.subarray([1, 4, 5]),
  duties: fc.uniqueArray(anyDuty, { minLength: 1, maxLength: 3, selector: (d) => d.name }),
})
const anyFleet = fc.array(anyWell, { maxLength: 14 }).map((wells) =>
  wells.map((w, i) =>
    well(
      `w${String(i).padStart(2, '0')}`,
      w.duties.map((d) =>
        duty(d.name, d.consequence, d.dueIn === null ? null : addDays(TODAY, d.dueIn), d.serviceS),
      ),
      {
        at: w.placed ? { latitude: 44.5 + w.north / 111, longitude: -72.6 + w.east / 79 } : null,
        closed: w.closed ? { from: '11-26', to: '11-26', why: 'flood' } : null,
        wishes: {
          window: {
            notBeforeS: w.notBefore === null ? null : w.notBefore * H,
            doneByS: w.doneBy === null ? null : w.doneBy * H,
          },
          notOn: w.notOn,
        },
      },
    ),
  ),
)
const anyDays = fc.constantFrom([day()], [day(TODAY, 4)], [day(), day('2026-11-27'), day('2026-11-30', 6)])

describe('properties of a proposal', () => {
  test('the day’s hours, the owners’ hours, closed days and refused weekdays are kept', () => {
    fc.assert(
      fc.property(anyFleet, anyDays, (wells, days) => {
        const proposal = propose(wells, days)
        for (const [i, proposed] of proposal.days.entries()) {
          expect(proposed.schedule.lateS).toBeLessThan(1e-3)
          expect(proposed.schedule.homeS).toBeLessThan((days[i]?.endS ?? 0) + 1e-3)
          for (const stop of proposed.stops) {
            const at = wells.find((w) => w.id === stop.wellId)
            expect(at?.at).not.toBeNull()
            expect(at?.closed !== null && proposed.day === TODAY).toBe(false)
            // 26 November 2026 is a Thursday; days count on from there.
            const weekday = ((3 + daysBetween(TODAY, proposed.day)) % 7) + 1
            expect(at?.wishes.notOn).not.toContain(weekday)
            const service = stop.duties.reduce(
              (sum, d) => sum + (at?.duties.find((x) => x.key === d.key)?.serviceS ?? 0),
              SETTINGS.setUpS,
            )
            expect(stop.times.leaveS - stop.times.beginS).toBeCloseTo(service, 6)
          }
        }
      }),
      { numRuns: 60 },
    )
  })

  test('health past due is never left for want of room while a wear item is taken', () => {
    // Long health work past due and short wear: what is left of a day would do for wear alone.
    const crowded = fc.array(
      fc.record({
        healthMin: fc.integer({ min: 60, max: 200 }),
        wearMin: fc.integer({ min: 5, max: 15 }),
        wearDueIn: fc.integer({ min: -100, max: 20 }),
        only: fc.constantFrom('health', 'wear', 'both'),
      }),
      { minLength: 3, maxLength: 10 },
    )
    let left = 0
    fc.assert(
      fc.property(crowded, anyDays, (fleet, days) => {
        const wells = fleet.map(({ healthMin, wearMin, wearDueIn, only }, i) => {
          const health = duty('Clean out tank', 'health', addDays(TODAY, -30), 60 * healthMin)
          const wear = duty('Check motor brushes', 'wear', addDays(TODAY, wearDueIn), 60 * wearMin)
          const duties = only === 'both' ? [health, wear] : only === 'health' ? [health] : [wear]
          return well(`w${i}`, duties)
        })
        const proposal = propose(wells, days)
        if (!proposal.leftOut.some((l) => l.code === 'no-room' && l.duties.includes('Clean out tank'))) return
        left++
        const taken = proposal.days.flatMap((d) => d.stops).flatMap((s) => s.duties.map((d) => d.name))
        expect(taken).not.toContain('Check motor brushes')
      }),
      { numRuns: 60 },
    )
    // The case was really met.
    expect(left).toBeGreaterThan(0)
  })

  test('all that is past due is either taken once or left out with a reason', () => {
    fc.assert(
      fc.property(anyFleet, anyDays, (wells, days) => {
        const proposal = propose(wells, days)
        const taken = proposal.days
          .flatMap((d) => d.stops)
          .flatMap((s) => s.duties.map((x) => `${s.wellId} ${x.name}`))
        const left = proposal.leftOut.flatMap((l) => l.duties.map((name) => `${l.wellId} ${name}`))
        const both = [...taken, ...left]
        expect(new Set(both).size).toBe(both.length)
        for (const w of wells) {
          for (const d of w.duties)
            if (d.due !== null && d.due < TODAY) expect(both).toContain(`${w.id} ${d.name}`)
        }
        expect(proposal.leftOut.every((l) => l.why.length > 0)).toBe(true)
      }),
      { numRuns: 60 },
    )
  })

  test('the order in which the wells come does not matter', () => {
    fc.assert(
      fc.property(anyFleet, anyDays, (wells, days) => {
        expect(propose([...wells].reverse(), days)).toEqual(propose(wells, days))
      }),
      { numRuns: 30 },
    )
  })
})

describe('the parts of a round', () => {
  const stops = [
    { id: 'a', label: 'Well a', dutyKeys: ['bacteria-sample', 'nitrate-sample'] },
    { id: 'b', label: 'Well b', dutyKeys: ['bacteria-sample', 'polish-the-lid'] },
  ]

  test('are those of the truck list, with the stops that want them', () => {
    const { lines, unknown } = pickList(stops, partsHint)
    expect(lines.map(({ part, duties }) => ({ part, duties }))).toEqual(
      truckList(stops.flatMap((s) => s.dutyKeys)),
    )
    expect(lines[0]).toEqual({
      part: 'cooler with ice',
      duties: 3,
      stops: [
        { id: 'a', label: 'Well a', duties: 2 },
        { id: 'b', label: 'Well b', duties: 1 },
      ],
    })
    expect(unknown).toEqual(['polish-the-lid'])
  })
})

describe('a stop that is closed', () => {
  const sample: ClosingDuty = { key: 'bacteria-sample', name: 'Bacteria sample', consequence: 'health' }
  const brush: ClosingDuty = { key: 'check-motor-brushes', name: 'Check motor brushes', consequence: 'wear' }
  const kinds = (steps: ReturnType<typeof closeStop>) => steps.map((s) => s.kind)

  test('done logs what was done and nothing else', () => {
    expect(closeStop({ outcome: 'done', done: [sample] })).toEqual([{ kind: 'log-done', duty: sample }])
  })

  test('partly keeps the rest due and comes again by its weight', () => {
    const steps = closeStop({ outcome: 'partly', done: [brush], left: [{ ...sample, why: 'no bottle' }] })
    expect(kinds(steps)).toEqual(['log-done', 'stays-due', 'visit-again'])
    expect(steps[1]).toMatchObject({ duty: sample, words: 'Bacteria sample is still due: no bottle.' })
    expect(steps[2]).toMatchObject({ withinDays: 7 })
  })

  test.each([
    ['not-found', { outcome: 'not-found', planned: [sample, brush], tried: 'both ties', hasTies: true }],
    ['no-access', { outcome: 'no-access', planned: [sample, brush], why: 'gate locked' }],
  ] as const)(
    '%s logs the attempt, nothing as done, and tells the owner what was not tested',
    (_, closing) => {
      const steps = closeStop(closing)
      expect(kinds(steps)).not.toContain('log-done')
      expect(steps[0]?.kind).toBe('log-note')
      expect(steps.filter((s) => s.kind === 'stays-due')).toHaveLength(2)
      expect(steps.find((s) => s.kind === 'call-owner')).toMatchObject({
        words: expect.stringContaining('Bacteria sample'),
      })
      expect(kinds(steps).includes('mend-place')).toBe(closing.outcome === 'not-found')
    },
  )

  test('not found without ties asks for ties', () => {
    const steps = closeStop({ outcome: 'not-found', planned: [], tried: 'probing', hasTies: false })
    expect(steps.find((s) => s.kind === 'mend-place')).toMatchObject({
      words: expect.stringContaining('no ties'),
    })
    expect(kinds(steps)).not.toContain('visit-again')
  })
})
