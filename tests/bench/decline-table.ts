import { type AsOf, causeFigures, flagFigures, outlookFigures, type Told } from '../sim/score'

const HEADINGS = [
  'false alarms: steady / falling table / both / pump',
  'sensitivity: all / clear',
  'before 75 %: all / clear',
  'delay, years',
  'cause: accuracy / balanced',
  '75 % date: dated, coverage, width, error',
  'below demand: dated, coverage, width, error',
]

/** Prints one fleet's figures, a line each, and what was named for each true cause. */
export function printFigures(
  name: string,
  told: readonly Told[],
  at75: readonly AsOf[],
  atShort: readonly AsOf[],
): void {
  const flags = flagFigures(told)
  const causes = causeFigures(told)
  const { steady, watertable, steadyAndTable, pump } = flags.falseAlarms
  const dates = (points: readonly AsOf[], which: 'to75Percent' | 'belowDemand') => {
    const { asked, dated, coverage, widthYears, errorYears } = outlookFigures(points, which)
    return asked === 0
      ? 'no truth'
      : `${dated} of ${asked}, ${of(coverage)}, ${of(widthYears)}, ${of(errorYears)}`
  }
  const values = [
    list(steady, watertable, steadyAndTable, pump),
    list(flags.sensitivity.all, flags.sensitivity.clear),
    list(flags.before75.all, flags.before75.clear),
    of(flags.delayYears),
    list(causes.accuracy, causes.balanced),
    dates(at75, 'to75Percent'),
    dates(atShort, 'belowDemand'),
  ]
  console.log(`\n${name}: ${told.length} wells`)
  HEADINGS.forEach((heading, i) => {
    console.log(`  ${heading.padEnd(52)} ${values[i]}`)
  })
  for (const [cause, named] of Object.entries(causes.table)) {
    const counts = Object.entries(named).map(([as, count]) => `${as} ${count}`)
    console.log(`  named where truly ${cause.padEnd(34)} ${counts.join(', ')}`)
  }
}

function of(value: number): string {
  return value.toFixed(value < 1 ? 3 : 2)
}

function list(...values: number[]): string {
  return values.map(of).join(' / ')
}
