/**
 * `npm run bench [-- SIZES]`: every figure of the README, with what it was measured on. SIZES are fleet sizes
 * ("1000,10000,100000" unless said otherwise; the largest takes some minutes to make).
 */
import { cpus } from 'node:os'
import { benchCrowd } from './crowd'
import { benchDecline } from './decline'
import { benchPlace } from './place'
import { benchRecords } from './records'
import { benchRebuild, benchReckonLines, benchRereckon } from './rereckon'
import { benchSlow } from './slow'
import { benchStats } from './stats'
import { benchSupply } from './supply'
import { benchWear } from './wear'

const sizes = (process.argv[2] ?? '1000,10000,100000').split(',').map(Number)
if (sizes.some((size) => !Number.isInteger(size) || size < 100)) {
  console.error('Sizes are whole numbers of wells, 100 or more, set off by commas.')
  process.exit(2)
}
console.log(`Node ${process.version}, ${cpus().length} cores (${cpus()[0]?.model ?? 'unknown'})`)
const measures = [
  () => benchRecords(sizes),
  benchStats,
  benchWear,
  benchSupply,
  benchPlace,
  benchRereckon,
  benchRebuild,
  benchReckonLines,
  benchSlow,
  // At ten thousand wells where so many are asked for.
  () => benchCrowd(Math.min(10_000, Math.max(...sizes))),
]
for (const measure of measures) {
  const figures = await measure()
  for (const { name, value, unit } of figures) {
    console.log(`${name.padEnd(56)} ${Number(value.toPrecision(3)).toLocaleString('en-US')} ${unit}`)
  }
}
benchDecline()
