import { simulateFleet } from '../sim/fleet'
import { lookAtFleet } from '../sim/look'
import { asOfPoints } from '../sim/score'
import { WORLD, WORLDS } from '../sim/settings'
import { printFigures } from './decline-table'

const SHARE = 0.05
const WELLS = 300
const SEED = 101

/**
 * How well declines are told in many kinds of invented fleets with known truth, one look a visit.
 */
export function benchDecline(): void {
  console.log(`\nDeclines, one look a visit, false-alarm setting ${100 * SHARE} %, ${WELLS} wells a world`)
  Object.entries(WORLDS).forEach(([name, world], i) => {
    const told = lookAtFleet(simulateFleet({ ...WORLD, ...world, wells: WELLS, seed: SEED + i }), SHARE)
    printFigures(name, told, asOfPoints(told), asOfPoints(told, 'shortOn'))
  })
}
