/** What a series of results says in one or two sentences; non-detects are told as such. */
import { type Day, formatNumber } from '@/lib/domain/quantity'
import type { Series, SeriesPoint, SeriesTrend } from './series'

/** How many results from when to when, how many of them below what could be seen, the last one, and the trend. */
export function saySeries(series: Series, show: (day: Day) => string): string {
  const { points, unit, trend } = series
  const [first, last] = [points[0], points.at(-1)]
  if (!first || !last) return 'No result yet.'
  const below = points.filter((point) => point.reads === 'below').length
  const span =
    points.length === 1
      ? `One result, of ${show(first.on)}: ${sayPoint(last, unit)}.`
      : `${points.length} results from ${show(first.on)} to ${show(last.on)}${belowWords(below, points.length)}; the last is ${sayPoint(last, unit)}.`
  return `${span} ${sayTrend(trend, unit)}`.trim()
}

function belowWords(below: number, all: number): string {
  if (below === 0) return ''
  return below === all ? ', all below their reporting limit' : `, ${below} of them below the reporting limit`
}

/** One result in words: the value, or the bound that is all that is known. */
export function sayPoint({ value, reads, typed }: SeriesPoint, unit: string): string {
  if (value === null) return typed === '' ? 'without a number' : typed
  const amount = `${sayValue(value)} ${unit}`.trim()
  if (reads === 'below') return `less than ${amount}`
  return reads === 'above' ? `more than ${amount}` : amount
}

/** The trend in words. No trend is claimed where the results do not carry one. */
export function sayTrend(trend: SeriesTrend, unit: string): string {
  switch (trend.kind) {
    case 'trend':
      return trend.established ? risesOrFalls(trend, unit) : noTrend(trend)
    case 'too-few':
      return `No trend is told from ${trend.have} of the ${trend.need} results that it needs.`
    case 'mostly-non-detect':
      return `No trend is told: ${trend.nonDetects} of ${trend.n} results are non-detects, more than half.`
    case 'open':
      return 'No trend can be told: the non-detects leave it open.'
    case 'not-a-substance':
      return ''
  }
}

type Trend = Extract<SeriesTrend, { kind: 'trend' }>

function risesOrFalls({ perYear, low, high, n, nonDetects }: Trend, unit: string): string {
  const limits = low === null || high === null ? '' : ` (95 % limits ${sayValue(low)} to ${sayValue(high)})`
  return `It ${perYear > 0 ? 'rises' : 'falls'} by ${sayValue(Math.abs(perYear))} ${unit} a year${limits}, by ${n} results${nonDetects > 0 ? `, ${nonDetects} of them non-detects taken as such` : ''}.`
}

const noTrend = ({ n, p }: Trend): string =>
  `Neither a rise nor a fall is shown by ${n} results (p = ${formatNumber(p, 2, 2)}).`

/** Three figures, as laboratories write them. */
function sayValue(value: number): string {
  if (value === 0) return '0'
  const decimals = Math.max(0, Math.min(6, 2 - Math.floor(Math.log10(Math.abs(value)))))
  return formatNumber(value, 0, decimals)
}
