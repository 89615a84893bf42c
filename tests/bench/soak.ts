/** `npm run soak`: two hundred kills of a writing process, and what each left behind. Takes some minutes. */
import { killWriters } from '../reliability/kills'

const figures = await killWriters(200, 80)
console.log(
  `${figures.kills} kills, ${figures.acknowledged} visits acknowledged: ${figures.lost} lost, ${figures.halfVisits} half, ${figures.unsound} databases unsound`,
)
process.exit(figures.lost + figures.halfVisits + figures.unsound === 0 ? 0 : 1)
