import { expect, test } from 'vitest'
import { orderRound } from '@/lib/domain/place'
import { OPTIMA, OPTIMA_WITH_HOURS, tsplib, withHours } from './instances'

const names = Object.keys(OPTIMA).filter((name): name is keyof typeof OPTIMA => name in OPTIMA)
const withHoursNames = Object.keys(OPTIMA_WITH_HOURS).filter(
  (name): name is keyof typeof OPTIMA_WITH_HOURS => name in OPTIMA_WITH_HOURS,
)

test('published optima are met within 2 %, the middle one exactly', () => {
  const over = names.map((name) => {
    const { order, schedule } = orderRound(tsplib(name))
    expect(new Set(order).size).toBe(tsplib(name).stops.length)
    return { name, percent: 100 * (schedule.travelS / OPTIMA[name].length - 1) }
  })
  const sorted = over.map(({ percent }) => percent).sort((a, b) => a - b)
  // Below 0 would mean that the instance is not the published one.
  expect(sorted[0]).toBeGreaterThan(-1e-9)
  expect(sorted[Math.ceil(sorted.length / 2)]).toBeLessThan(1e-9)
  expect(Math.max(...sorted), JSON.stringify(over)).toBeLessThanOrEqual(2)
})

test.each(withHoursNames)('with hours, %s has its published optimum and nobody is late', (name) => {
  const { schedule, conflicts } = orderRound(withHours(name))
  expect(conflicts).toEqual([])
  expect(schedule.lateS).toBe(0)
  expect(schedule.travelS).toBeGreaterThanOrEqual(OPTIMA_WITH_HOURS[name] - 1e-9)
  expect(schedule.travelS).toBeLessThanOrEqual(1.02 * OPTIMA_WITH_HOURS[name])
})
