import { beforeAll, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import { timetable } from '@/lib/domain/place'
import { exportRounds } from '@/lib/exchange/export-rounds'
import { phoneRound } from '@/lib/exchange/phone/round'
import { newId } from '@/lib/records/ids'
import { removeStop, reorderRound, setRoundStatus } from '@/lib/records/round-writes'
import { closeStop } from '@/lib/records/rounds-close'
import { pickListOf } from '@/lib/records/stock'
import { changeWork, stopWork } from '@/lib/records/stop-work'
import { installer, owner, technician } from '../setup/viewers'
import { AT, closingOf, db, line, makeFleet, pageOf, roundWith, service, TODAY } from './rounds-fleet'

beforeAll(makeFleet)

const BOTH = ['bacteria-sample', 'check-motor-brushes']

/** A round of R1 to R3, and its stop at R1, where nobody is wanted before ten. */
async function planned() {
  const roundId = await roundWith(['R1', 'R2', 'R3'])
  const stop = pageOf(roundId).stops.find(({ label }) => label === 'R1')
  if (!stop) throw new Error('R1 is not on the round')
  return { roundId, stop }
}
const stopOn = (roundId: string, stopId: string) => pageOf(roundId).stops.find((stop) => stop.id === stopId)
const changes = (roundId: string) =>
  db.sqlite.prepare('SELECT "action" FROM "Change" WHERE "targetId" = ? ORDER BY rowid').pluck().all(roundId)

describe('the work of a stop', () => {
  test('is offered with all that is due at the well, each with its minutes, what is planned first', async () => {
    const { roundId, stop } = await planned()
    const work = stopWork(db, installer, roundId, stop.id)
    expect(work?.choices.map(({ key, planned, minutes }) => [key, planned, minutes])).toEqual([
      ...BOTH.map((key) => [key, true, 20]),
      ['water-first-test', false, 20],
    ])
    expect(work).toMatchObject({ setUpMinutes: 10, reckoned: 50, stop: { minutes: 50, note: null } })
  })

  test('changes in place: duties, minutes and note, the times after it, and the change record', async () => {
    const { roundId, stop } = await planned()
    const before = pageOf(roundId)
    const wish = { keys: ['bacteria-sample'], minutes: null, note: 'Bring the long ladder.' }
    expect(await changeWork(db, installer, roundId, stop.id, stop.version, wish, AT)).toEqual({
      kind: 'stored',
    })
    const after = pageOf(roundId)
    expect(after.stops.map(({ id }) => id)).toEqual(before.stops.map(({ id }) => id))
    expect(stopOn(roundId, stop.id)).toMatchObject({
      minutes: 30,
      note: 'Bring the long ladder.',
      duties: [stop.duties.find(({ key }) => key === 'bacteria-sample')],
      why: stop.why,
      version: stop.version + 1,
    })
    const home = (page: typeof after) => timetable(page.round, page.stops)?.schedule.homeS ?? Number.NaN
    // After ten nothing waits any more: the work is twenty minutes shorter, and so is the day.
    expect(home(before) - home(after)).toBe(20 * 60)
    expect(after.round.version).toBe(before.round.version + 1)
    expect(changes(roundId)).toEqual(['round planned', 'stop planned anew'])
    const again = stopWork(db, installer, roundId, stop.id)
    expect(again?.choices.map(({ key, planned }) => [key, planned])).toEqual([
      ['bacteria-sample', true],
      ['water-first-test', false],
      ['check-motor-brushes', false],
    ])
  })

  test('leaves the parts to load to the duties that are planned now', async () => {
    const { roundId, stop } = await planned()
    const load = () => {
      const work = pageOf(roundId).stops.map(({ wellId, label, duties }) => ({
        wellId,
        label,
        dutyKeys: duties.map(({ key }) => key),
      }))
      return pickListOf(db, installer, work).flatMap(({ wells }) => wells.map(({ id }) => id))
    }
    const loaded = load().filter((id) => id === stop.wellId).length
    expect(loaded).toBeGreaterThan(0)
    const wish = { keys: ['bacteria-sample'], minutes: 15, note: null }
    await changeWork(db, installer, roundId, stop.id, stop.version, wish, AT)
    expect(load().filter((id) => id === stop.wellId).length).toBeLessThan(loaded)
    expect(stopOn(roundId, stop.id)?.minutes).toBe(15)
  })

  test('is not written over what somebody else planned meanwhile, who moves it is no hindrance', async () => {
    const { roundId, stop } = await planned()
    const theirs = { keys: [], minutes: 5, note: 'Look in only.' }
    await changeWork(db, installer, roundId, stop.id, stop.version, theirs, AT)
    const mine = { keys: BOTH, minutes: null, note: null }
    const clash = await changeWork(db, installer, roundId, stop.id, stop.version, mine, AT)
    expect(clash).toMatchObject({ kind: 'clash', stop: { minutes: 5, note: 'Look in only.', duties: [] } })
    expect(stopOn(roundId, stop.id)).toMatchObject({ minutes: 5, note: 'Look in only.' })
    const now = stop.version + 1
    const { round, stops } = pageOf(roundId)
    const turned = stops.map(({ id }) => id).reverse()
    await reorderRound(db, technician, roundId, round.version, turned, new Set(), AT)
    expect(await changeWork(db, installer, roundId, stop.id, now, mine, AT)).toEqual({ kind: 'stored' })
    expect(stopOn(roundId, stop.id)).toMatchObject({ minutes: 50, note: null })
  })

  test('is refused with a reason for a closed stop, a closed round, a stop that is gone, and an unknown duty', async () => {
    const { roundId, stop } = await planned()
    const wish = { keys: BOTH, minutes: null, note: null }
    const change = (stopId: string, version: number, keys = wish.keys) =>
      changeWork(db, installer, roundId, stopId, version, { ...wish, keys }, AT)
    expect(await change(stop.id, stop.version, ['no-such-duty'])).toMatchObject({ kind: 'refused' })
    const visit = newId()
    const done = [line(stop.wellId, visit, service(BOTH))]
    await closeStop(db, technician, closingOf(stop.id, visit), done, AT, TODAY)
    expect(await change(stop.id, stop.version + 1)).toMatchObject({
      kind: 'refused',
      message: 'This stop is closed: what happened there stays on the round.',
    })
    const { round, stops } = pageOf(roundId)
    const [second, third] = stops.filter(({ id }) => id !== stop.id)
    await removeStop(db, installer, roundId, round.version, third?.id ?? '', AT)
    expect(await change(third?.id ?? '', 1)).toMatchObject({
      kind: 'refused',
      message: 'This stop is not on the round any more.',
    })
    expect(stopWork(db, installer, roundId, third?.id ?? '')).toBeNull()
    await setRoundStatus(db, technician, roundId, 'closed', AT)
    expect(await change(second?.id ?? '', 1)).toMatchObject({
      kind: 'refused',
      message: 'This round is closed.',
    })
    expect(await changeWork(db, installer, newId(), stop.id, 1, wish, AT)).toEqual({ kind: 'no-such-round' })
  })

  test('is for those who plan, on the round where the stop stands', async () => {
    const { roundId, stop } = await planned()
    const other = await roundWith(['Quiet'])
    expect(stopWork(db, technician, roundId, stop.id)).toBeNull()
    expect(stopWork(db, owner('o'), roundId, stop.id)).toBeNull()
    expect(stopWork(db, installer, other, stop.id)).toBeNull()
    const wish = { keys: BOTH, minutes: null, note: null }
    for (const viewer of [technician, owner('o')]) {
      await expect(changeWork(db, viewer, roundId, stop.id, 1, wish, AT)).rejects.toThrow(NotAllowed)
    }
    expect(await changeWork(db, installer, other, stop.id, 1, wish, AT)).toMatchObject({ kind: 'refused' })
  })

  test('goes with its note to the phone and into the file of rounds', async () => {
    const { roundId, stop } = await planned()
    const wish = { keys: BOTH, minutes: null, note: 'Key under the third flowerpot.' }
    await changeWork(db, installer, roundId, stop.id, stop.version, wish, AT)
    const carried = phoneRound(db, technician, roundId)?.stops.map(({ note }) => note)
    expect(carried).toContain('Key under the third flowerpot.')
    expect(phoneRound(db, owner('o'), roundId)).toBeNull()
    expect([...exportRounds(db, installer)].join('')).toContain('Key under the third flowerpot.')
  })
})
