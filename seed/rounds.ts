import { OUTFIT } from '@/lib/access/viewer'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { type StopClosing, type StopOutcome, wellDuties, yardSetting } from '@/lib/domain/place'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { proposeStops } from '@/lib/records/round-proposal'
import { createRounds, setRoundStatus } from '@/lib/records/round-writes'
import { type RoundStop, roundPage } from '@/lib/records/rounds'
import { closeStop } from '@/lib/records/rounds-close'
import { wellList } from '@/lib/records/well-list'
import { putYard } from '@/lib/records/yard'

/** The yard of the invented outfit, in the middle of the made-up valley. */
const YARD = yardSetting.parse({ yard: { latitude: 44.155, longitude: -121.33 } })

type Ending = { well: string; outcome: StopOutcome; said: string; steps: StopClosing['steps']; other: string }

/** How the four stops of the closed round ended: one of each. */
const ENDINGS: readonly Ending[] = [
  { well: 'Glasshouse 1', outcome: 'done', said: '', steps: [], other: '' },
  {
    well: 'Shade House',
    outcome: 'partly',
    said: 'The rest was left: rain came in before the head was shut.',
    steps: ['visit-again'],
    other: '',
  },
  {
    well: 'Packing Shed',
    outcome: 'not-found',
    said: 'measured from both corners and probed; the yard was graded since',
    steps: ['visit-again', 'call-owner', 'mend-place', 'search'],
    other: '',
  },
  {
    well: 'Cheese Room',
    outcome: 'no-access',
    said: 'gate chained, nobody at home',
    steps: ['visit-again', 'call-owner'],
    other: 'Ask for the code of the new lock.',
  },
]

/**
 * The yard, a round that was closed with a stop of each outcome, and one that is planned for today. Both belong to the
 * import of the fleet. Answers how many lines they left in the logbook.
 */
export async function driveDemoRounds(db: Db, batchId: string, at: string, today: Day): Promise<number> {
  await putYard(db, OUTFIT, YARD, at)
  const lines = await closedRound(db, batchId, at, today)
  const wish = { days: [today], startAt: '08:00', endAt: '15:00', area: null, soonDays: 30 }
  const [day] = proposeStops(db, OUTFIT, YARD, wish).proposal.days
  const stops = (day?.stops ?? []).map((stop) => ({
    wellId: stop.wellId,
    dutyKeys: stop.duties.map((duty) => duty.key),
  }))
  const planned = { ...frame(today, 'Round of the day'), endAt: '15:00', stops }
  await createRounds(db, OUTFIT, newId(), [planned], at, batchId)
  return lines
}

const frame = (day: Day, name: string) => ({
  name,
  day,
  startAt: '08:00',
  endAt: '17:00',
  assignedTo: null,
  notes: null,
})

async function closedRound(db: Db, batchId: string, at: string, today: Day): Promise<number> {
  const day = addDays(today, -3)
  const stops = ENDINGS.map(({ well }) => ({ wellId: wellCalled(db, well), dutyKeys: null }))
  const [id = ''] = await createRounds(
    db,
    OUTFIT,
    newId(),
    [{ ...frame(day, 'Mill Reach and back'), stops }],
    at,
    batchId,
  )
  await setRoundStatus(db, OUTFIT, id, 'out', `${day}T13:05:00.000Z`)
  let lines = 0
  for (const stop of roundPage(db, OUTFIT, id)?.stops ?? []) {
    const ending = ENDINGS.find(({ well }) => well === stop.wellName)
    if (!ending) throw new Error(`${stop.label} has no ending in the demo`)
    lines += await end(db, stop, ending, day, { batchId, at, today })
  }
  await setRoundStatus(db, OUTFIT, id, 'closed', `${day}T18:40:00.000Z`)
  return lines
}

function wellCalled(db: Db, name: string): string {
  const well = wellList(db, OUTFIT, { search: name }, null, 1).rows[0]
  if (!well) throw new Error(`the demo fleet has no ${name}`)
  return well.id
}

async function end(
  db: Db,
  stop: RoundStop,
  { outcome, said, steps, other }: Ending,
  day: Day,
  { batchId, at, today }: { batchId: string; at: string; today: Day },
): Promise<number> {
  const visitId = newId()
  const drafts = factsOf(stop, outcome, said).map((payload) => ({
    id: newId(),
    wellId: stop.wellId,
    visitId,
    occurredOn: day,
    occurredTime: null,
    byName: 'Joss',
    supersedes: null,
    withdraws: null,
    payload,
  }))
  const closing = { stopId: stop.id, visitId, outcome, madeAt: `${day}T15:00:00.000Z`, said, steps, other }
  const from = { source: 'demo' as const, batchId }
  const answer = await closeStop(db, { ...OUTFIT, name: 'Joss (demo)' }, closing, drafts, at, today, from)
  if (answer.kind !== 'stored') throw new Error(`a demo stop was not closed: ${JSON.stringify(answer)}`)
  return drafts.length
}

/** Done: every duty planned, or a look at the cap where none was; partly: the first only. */
function factsOf(stop: RoundStop, outcome: StopOutcome, said: string): Fact[] {
  if (outcome === 'not-found' || outcome === 'no-access') {
    return [
      { kind: 'event', event: outcome },
      { kind: 'note', text: said },
    ]
  }
  const planned = wellDuties(stop.duties)
  const done = outcome === 'done' ? planned : planned.slice(0, 1)
  if (done.length === 0) return [{ kind: 'note', text: 'Looked over: cap, seal and ground around it.' }]
  return [
    {
      kind: 'service-done',
      duties: done.map((duty) => duty.key),
      names: done.map((duty) => duty.name),
      parts: [],
    },
  ]
}
