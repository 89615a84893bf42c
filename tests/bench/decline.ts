import { callsAcrossFleet } from '@/lib/domain/yield/decline/fleet'
import { simulateFleet } from '../sim/fleet'
import { type Looked, lookAtFleet } from '../sim/look'
import { asOfPoints, flagFigures } from '../sim/score'
import { WORLD, WORLDS } from '../sim/settings'
import { printFigures } from './decline-table'

const SHARE = 0.05
const OTHER_SHARES = [0.01, 0.2]
const OTHER_WORLDS = ['plain', 'careless keeping', 'wild water table']
const WELLS = 150
const SEED = 101

/**
 * How well declines are told in many kinds of invented fleets with known truth, one look a visit; how often calls
 * across the whole fleet are false; and what other settings of the false-alarm share come to in three worlds.
 */
export function benchDecline(): void {
  console.log(`\nDeclines, one look a visit, false-alarm setting ${100 * SHARE} %, ${WELLS} wells a world`)
  const all = Object.keys(WORLDS).flatMap((name, i) => {
    const told = lookAtWorld(name, i)
    print(name, told)
    return told
  })
  print('all worlds together', all)
  benchOtherShares()
}

/** What a fleet sees at other settings of the false-alarm share, in a plain world and two that are hard to read. */
function benchOtherShares(): void {
  for (const share of OTHER_SHARES) {
    for (const name of OTHER_WORLDS) {
      const looked = lookAtWorld(name, Object.keys(WORLDS).indexOf(name), share)
      const { falseAlarms, sensitivity } = flagFigures(looked)
      console.log(
        `${name} at a setting of ${100 * share} %: ever falsely flagged ${falseAlarms.steadyAndTable.toFixed(3)}, declines found ${sensitivity.all.toFixed(3)}`,
      )
    }
  }
}

/** One of the worlds, each with a seed of its own. */
function lookAtWorld(name: string, i: number, share = SHARE): Looked[] {
  return lookAtFleet(simulateFleet({ ...WORLD, ...WORLDS[name], wells: WELLS, seed: SEED + i }), share)
}

function print(name: string, told: readonly Looked[]): void {
  printFigures(name, told, asOfPoints(told), asOfPoints(told, 'shortOn'))
  console.log(`  ${'called across the fleet at the last visit'.padEnd(52)} ${callsOf(told, SHARE)}`)
}

function callsOf(told: readonly Looked[], share: number): string {
  const called = callsAcrossFleet(
    told.map((one) => ({ well: one.well, standing: one.last, loses: one.truth.leftAtEnd < 1 })),
    share,
  )
  const wrong = called.filter(({ loses }) => !loses).length
  return `${called.length} wells, ${wrong} of them without a loss`
}
