import { believe, READINGS_MIN } from './cartridge-belief'
import type { CartridgeRun } from './cartridge-runs'
import { type LoadPrior, openPrior } from './load-prior'
import type { Pace } from './pace'
import { pooled, pooledShares } from './pooling'

/** A cartridge lasts some nine months of the well's own use, give or take a factor of three, until it tells otherwise. */
const USUAL_LIFE_DAYS = 270
/** How much cartridges on one well differ (standard deviation of the logarithm) before their own record says so. */
const BETWEEN_CARTRIDGES = 0.3
const CLEAN_BETWEEN = 0.2
const POWER_BETWEEN = 0.12

/**
 * What earlier cartridges of this well teach about the next: each one's own belief over a weak one about cartridges
 * at large (see pooled).
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
      shapes: pooledShares(
        open.shapes,
        beliefs.map((b) => b.shapes),
      ),
      drifts: pooledShares(
        open.drifts,
        beliefs.map((b) => b.drifts),
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
