/** `npm run rebuild`: makes every standing anew from the register and the logbook. */
import { getDb } from '../records/open'
import { rebuild } from '../records/rebuild'

const db = await getDb()
const started = performance.now()
const count = await rebuild(db, 'all', (done) => {
  if (done % 5000 === 0) console.log(`${done} wells reckoned`)
})
console.log(`${count} wells reckoned anew in ${((performance.now() - started) / 1000).toFixed(1)} s`)
await db.close()
