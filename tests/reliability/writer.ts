/** A process that writes visits as fast as it can and says each one that was acknowledged, until it is killed. */
import { OUTFIT } from '@/lib/access/viewer'
import { openDb } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { record } from '@/lib/records/record'

const [file, wellId] = process.argv.slice(2)
if (!file || !wellId) throw new Error('writer.ts DATABASE WELL')
const db = await openDb(file)
for (;;) {
  const visitId = newId()
  const line = {
    wellId,
    visitId,
    occurredOn: '2026-05-04',
    occurredTime: null,
    byName: 'w',
    supersedes: null,
    withdraws: null,
  }
  const lines = [1, 2, 3, 4].map((n) => ({
    ...line,
    id: newId(),
    payload: { kind: 'note', text: `line ${n}` },
  }))
  const outcome = await record(db, OUTFIT, lines, '2026-05-04T12:00:00.000Z', '2026-05-04')
  if (outcome.kind === 'stored') process.stdout.write(`${visitId}\n`)
}
