import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, test } from 'vitest'
import { axisOf, demandLevel } from '@/app/(desk)/wells/[wellId]/yield/_page/axis'
import { Verdict } from '@/app/(desk)/wells/[wellId]/yield/_page/verdict'
import { appraiseYield } from '@/lib/domain/yield/decline/appraise'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'

const TODAY = '2026-11-20'
const REGISTER = { demandM3PerS: 0.0002, intakeDepthM: 6 }
const CALLS = { listed: 64, flagged: 1, held: 1, leastOdds: 500, share: 0.05 }
const nothing = appraiseYield({ ...REGISTER, wellDepthM: 7, installedOn: null }, [], [], {
  falseAlarmShare: 0.05,
})

const told = (standing: YieldStanding, register: Parameters<typeof Verdict>[0]['register'] = REGISTER) =>
  renderToStaticMarkup(
    <Verdict standing={standing} register={register} marks={[]} calls={CALLS} today={TODAY} units="metric" />,
  ).replaceAll('\u00a0', ' ')

const losing: YieldStanding = {
  ...nothing,
  flag: true,
  cause: 'well',
  evidence: { ...nothing.evidence, declineOdds: 400 },
}

describe('the verdict', () => {
  test('names what is missing for a date below demand', () => {
    expect(told(nothing, { ...REGISTER, demandM3PerS: null })).toContain('The demand is not in the register.')
    expect(told(nothing, { ...REGISTER, intakeDepthM: null })).toContain(
      'depth of the intake is not in the register',
    )
    expect(told(nothing)).toContain('not established. No date: nothing was read yet.')
  })

  test('never gives the reason of one date for the lack of the other', () => {
    const belowDemand = { on: '2033-02-01', low: '2030-10-01', high: '2037-04-01' }
    const html = told({
      ...nothing,
      outlook: { to75Percent: null, belowDemand, why: 'The loss is carried forward at the rates.' },
    })
    expect(html).toContain('not established. A loss of capacity is not established.')
    expect(html).toContain('about Feb 2033; 8 times in 10 between Oct 2030 and Apr 2037')
  })

  test('tells a call that holds over the fleet from one that may be chance among so many wells', () => {
    expect(told(losing)).toContain('it may still be chance')
    const sure = { ...losing, evidence: { ...losing.evidence, declineOdds: 500 } }
    expect(told(sure)).toContain('also holds among all 64 wells')
  })
})

describe('the time axis of the charts', () => {
  const point = (on: string) => ({
    on,
    capacityM2PerS: 0.001,
    adjustedM2PerS: 0.001,
    staticM: 2,
    setAside: null,
  })
  const standing = (outlook: Partial<YieldStanding['outlook']>): YieldStanding => ({
    ...nothing,
    points: [point('2020-11-20'), point('2026-10-20')],
    outlook: { to75Percent: null, belowDemand: null, why: '', ...outlook },
  })
  const endOf = (outlook: Partial<YieldStanding['outlook']>, leastM2PerS: number | null) => {
    const of = standing(outlook)
    return axisOf(of, [], [], demandLevel(of, leastM2PerS), { today: TODAY, units: 'us' }).span.to
  }
  const near = { on: '2028-01-01', low: '2027-06-01', high: '2028-08-01' }

  test('ends a little after today where nothing lies ahead', () => {
    expect(endOf({}, null)).toBe('2026-12-20')
  })

  test('reaches to the late end of a date that is drawn, and not to one that is only told', () => {
    expect(endOf({ to75Percent: near }, null)).toBe('2028-08-31')
    expect(endOf({ belowDemand: near }, 0.0008)).toBe('2028-08-31')
    expect(endOf({ belowDemand: near }, 0.0001)).toBe('2026-12-20')
  })

  test('never leaves the readings a corner of the picture: a late end far off is drawn as open', () => {
    expect(endOf({ to75Percent: { ...near, high: '2080-01-01' } }, null) < '2031-09-01').toBe(true)
    expect(endOf({ to75Percent: { on: '2070-01-01', low: '2060-01-01', high: null } }, null)).toBe(
      '2026-12-20',
    )
  })
})
