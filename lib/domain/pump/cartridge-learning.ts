import { believe, READINGS_MIN } from './cartridge-belief'
import type { CartridgeRun } from './cartridge-runs'
import { type LoadPrior, openPrior } from './load-prior'
import type { Pace } from './pace'

/** A cartridge lasts some nine months of the well's own use, give or take a factor of three, until it tells otherwise. */
const USUAL_LIFE_DAYS = 270
/** How much cartridges on one well differ (standard deviation of the logarithm) before their own record says so. */
const BETWEEN_CARTRIDGES = 0.3
const CLEAN_BETWEEN = 0.2
const POWER_BETWEEN = 0.12

/**
 * What earlier cartridges of this well teach about the next: each one's own belief, weighed by how sure it is and by
 * how much they differ among each other (random effects), over a weak belief about cartridges at large.
 */
export function learn(
  earlier: readonly CartridgeRun[],
  by: CartridgeRun['by'],
  terminalPa: number,
  pace: Pace,
): { prior: LoadPrior; from: number } {
  const open = openPrior(terminalPa, USUAL_LIFE_DAYS * pace.perDay)
  const beliefs = earlier
    .filter((run) => run.by === by && run.changedOn !== null && run.readings.length >= READINGS_MIN)
    .map((run) => believe(run.readings, { terminalPa, flowDoubt: 0, events: [] }, open).belief)
    // One that began past its end has readings that contradict each other: it teaches nothing of the next.
    .filter(({ limitLog, cleanLog }) => limitLog.deviation < 0.6 && cleanLog.mean < Math.log(terminalPa))
  if (beliefs.length === 0) return { prior: open, from: 0 }
  const limitLog = pooled(
    open.limitLog,
    beliefs.map((b) => b.limitLog),
    BETWEEN_CARTRIDGES,
  )
  const cleanLog = pooled(
    open.cleanLog,
    beliefs.map((b) => b.cleanLog),
    CLEAN_BETWEEN,
  )
  return {
    prior: {
      limitLog,
      cleanLog,
      shapes: mixed(
        open.shapes,
        beliefs.map((b) => b.shapes),
      ),
      power: pooled(
        open.power,
        beliefs.map((b) => b.power),
        POWER_BETWEEN,
      ),
    },
    from: beliefs.length,
  }
}

type Normal = { mean: number; deviation: number }

function pooled(open: Normal, seen: readonly Normal[], usualBetween: number): Normal {
  const middle = seen.reduce((sum, s) => sum + s.mean, 0) / seen.length
  const squares = seen.reduce((sum, s) => sum + (s.mean - middle) ** 2, 0)
  const between2 = (4 * usualBetween ** 2 + squares) / (4 + seen.length - 1)
  let precision = 1 / open.deviation ** 2
  let weighted = open.mean * precision
  for (const s of seen) {
    const weight = 1 / (s.deviation ** 2 + between2)
    precision += weight
    weighted += weight * s.mean
  }
  return { mean: weighted / precision, deviation: Math.sqrt(1 / precision + between2) }
}

/** Half of the belief about the law stays with cartridges at large, less with each earlier one. */
function mixed(open: readonly number[], seen: readonly (readonly number[])[]): number[] {
  return open.map((share, k) => {
    const sum = seen.reduce((all, s) => all + (s[k] ?? 0), 0)
    return (2 * share + sum) / (2 + seen.length)
  })
}
