import type { ReactNode } from 'react'
import { TimeChart } from '@/app/ui/charts/time-chart'
import { listed } from '@/lib/domain/logbook/describe'
import type { LiftStanding } from '@/lib/domain/logbook/lift-standing'
import { displayUnit, fromSi, monthName, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'
import type { Day } from '@/lib/domain/quantity/day'

type Year = Extract<LiftStanding, { kind: 'year' }>
type Month = Year['months'][number]

/** The months to come: how deep the water stands at rest, and from how deep the pump still lifts it. */
export function LiftChart({
  lift,
  today,
  units,
  table,
}: {
  lift: Year
  today: Day
  units: UnitSystem
  table: ReactNode
}) {
  const unit = displayUnit('margin', units)
  const ahead = monthsAhead(lift.months, today)
  const line = (of: (month: Month) => number | null) => [
    ahead.flatMap(({ month, on }) => {
      const value = of(month)
      return value === null ? [] : [{ id: `${on} ${value}`, on, value: fromSi(value, unit), used: true }]
    }),
  ]
  return (
    <TimeChart
      title="Water at rest, and how deep the pump reaches"
      says={sayMonths(lift.months)}
      unit={`${unitSymbol(unit)} below the measuring point`}
      downwards
      series={[
        { name: 'level at rest, the deep side', mark: 'disc', stretches: line(({ staticM }) => staticM) },
        {
          name: 'deepest that the pump lifts from',
          mark: 'triangle',
          stretches: line(({ deepestStaticM }) => deepestStaticM),
        },
      ]}
      table={table}
    />
  )
}

/** Each month of the year at its middle, from the present one on. */
function monthsAhead(months: readonly Month[], today: Day): { month: Month; on: Day }[] {
  const [year, now] = [Number(today.slice(0, 4)), Number(today.slice(5, 7))]
  return months
    .map((month) => {
      const of = month.month < now ? year + 1 : year
      return { month, on: `${of}-${String(month.month).padStart(2, '0')}-15` }
    })
    .sort((a, b) => (a.on < b.on ? -1 : 1))
}

function sayMonths(months: readonly Month[]): string {
  const read = months.filter(({ spareM }) => spareM !== null)
  const out = read.filter(({ spareM }) => spareM !== null && spareM < 0)
  if (out.length === 0) {
    return read.length === months.length
      ? 'In every month the water at rest stands higher than the deepest from which the pump lifts.'
      : `In each of the ${read.length} months with a level at rest the water stands higher than the deepest from which the pump lifts.`
  }
  const names = listed(out.map(({ month }) => monthName(month)))
  return `In ${names} the water at rest stands deeper than the pump lifts from. ${read.length} of the twelve months have a level.`
}
