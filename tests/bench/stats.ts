import { execFileSync } from 'node:child_process'
import { performance } from 'node:perf_hooks'
import { mannKendall, type Point, seededStream, senSlope } from '@/lib/domain/stats'

export type Figure = { name: string; value: number; unit: string }

const VALUES = 10_000

/** A seeded series with a slight trend and noise, rounded to `places` as people write readings. */
function series(places: number): Point[] {
  const dice = seededStream(2026)
  return Array.from({ length: VALUES }, (_, i) => {
    let noise = -6
    for (let k = 0; k < 12; k++) noise += dice()
    return { time: i / 12, value: Number((noise + 0.0005 * i).toFixed(places)) }
  })
}

/** Median time of five runs in milliseconds, after one to warm up. */
export function milliseconds(run: () => void): number {
  run()
  const times = Array.from({ length: 5 }, () => {
    const start = performance.now()
    run()
    return performance.now() - start
  }).sort((a, b) => a - b)
  const middle = times[2]
  if (middle === undefined) throw new Error('five runs gave no third')
  return middle
}

/** Processor time in ms, all threads: what a machine that does other work does not change. */
export async function processorMs(run: () => unknown): Promise<number> {
  const before = process.cpuUsage()
  await run()
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1000
}

/** Median processor time of eleven runs in milliseconds, after as many to warm up. */
export async function medianProcessorMs(run: () => unknown): Promise<number> {
  const times: number[] = []
  for (let i = 0; i < 22; i += 1) times.push(await processorMs(run))
  return times.slice(11).sort((a, b) => a - b)[5] ?? Number.NaN
}

/** scipy on the same series, by the processor time of its own process after its import: the slope once, the test as ours; undefined where it is not installed. */
const SCIPY = `
import json, resource, sys, time
try:
    from scipy import stats
except ImportError:
    print("null"); sys.exit(0)
one = json.load(sys.stdin)
def middle(times): return sorted(times)[len(times) // 2]
def timed(run):
    start = time.process_time(); answer = run(); return time.process_time() - start, answer
test = middle([timed(lambda: stats.kendalltau(one["time"], one["value"]))[0] for _ in range(11)])
slope, line = timed(lambda: stats.theilslopes(one["value"], one["time"]))
print(json.dumps({"test": test * 1000, "slope": slope * 1000, "value": float(line[0]),
                  "peak": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024}))
`

type Scipy = { test: number; slope: number; value: number; peak: number }

function scipy(points: readonly Point[]): Scipy | undefined {
  const input = JSON.stringify({ time: points.map((p) => p.time), value: points.map((p) => p.value) })
  for (const python of PYTHONS) {
    const answer = askPython(python, input)
    if (answer) return answer
  }
  return undefined
}

/** The Python of the path first: the one of the system often has no scipy. */
const PYTHONS = ['python3', '/usr/bin/python3']

function askPython(python: string, input: string): Scipy | null {
  try {
    return JSON.parse(execFileSync(python, ['-c', SCIPY], { input, encoding: 'utf8' }))
  } catch (error) {
    // No such Python is the one failure expected here; anything else must be seen.
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return null
    throw error
  }
}

/**
 * Processor time of the trend test and the Sen slope with its limits on one series of 10,000 values, and of scipy's
 * kendalltau and theilslopes on the same one in the same run. Where scipy is not installed its rows are
 * left out and that is printed: no figure is made up.
 */
export async function benchStats(): Promise<Figure[]> {
  const figures: Figure[] = []
  for (const [what, places] of [
    ['full digits', 12],
    ['rounded to 0.1', 1],
  ] as const) {
    const points = series(places)
    const slope = senSlope(points)
    if (slope.kind !== 'slope') throw new Error('the series has no slope')
    const ms = (name: string, value: number) =>
      figures.push({ name: `${name}, ${VALUES} values, ${what}`, value, unit: 'ms' })
    ms('Mann-Kendall test', await medianProcessorMs(() => mannKendall(points)))
    ms('Sen slope with limits', await medianProcessorMs(() => senSlope(points)))
    const other = scipy(points)
    if (!other) {
      console.log(`scipy kendalltau and theilslopes, ${what}: not available`)
      continue
    }
    if (Math.abs(other.value - slope.slope) > 1e-9 * Math.abs(slope.slope)) {
      throw new Error(`slopes differ: ${slope.slope} here, ${other.value} in scipy`)
    }
    ms('scipy kendalltau', other.test)
    ms('scipy theilslopes', other.slope)
    figures.push({ name: `scipy peak memory, ${what}`, value: other.peak, unit: 'MB' })
  }
  return figures
}
