import { beforeAll, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import { timetable } from '@/lib/domain/place'
import { exportRounds } from '@/lib/exchange/export-rounds'
import { newId } from '@/lib/records/ids'
import { proposeStops } from '@/lib/records/round-proposal'
import {
  addStop,
  changeRound,
  createRounds,
  deleteRound,
  removeStop,
  reorderRound,
  setRoundStatus,
} from '@/lib/records/round-writes'
import { everyRound, roundPage, roundsOf, roundsToDrive, stopPage } from '@/lib/records/rounds'
import { closeStop } from '@/lib/records/rounds-close'
import { sayUnknown, wellsNamed } from '@/lib/records/wells-named'
import { getYard, putYard } from '@/lib/records/yard'
import { installer, owner, technician } from '../setup/viewers'
import { AT, closingOf, db, ids, line, makeFleet, pageOf, roundWith, TODAY, WISH, YARD } from './rounds-fleet'

beforeAll(makeFleet)

describe('a proposal', () => {
  test('has what is due and can be driven to, and says why the rest is not in it', () => {
    const { proposal } = proposeStops(db, installer, YARD, WISH)
    const labels = proposal.days[0]?.stops.map((stop) => stop.label).sort()
    expect(labels).toEqual(['R1', 'R2', 'R3'])
    const left = Object.fromEntries(proposal.leftOut.map((one) => [one.label, one.code]))
    expect(left).toEqual({ Snowed: 'closed-season', Nowhere: 'no-coordinate', Saturdays: 'owner-away' })
    expect(JSON.stringify(proposal)).not.toContain('Gone')
  })

  test('keeps the hours of an owner and takes along what falls due soon', () => {
    const { proposal } = proposeStops(db, installer, YARD, WISH)
    const stop = proposal.days[0]?.stops.find((one) => one.label === 'R1')
    expect(stop?.times.beginS).toBeGreaterThanOrEqual(10 * 3600)
    expect(stop?.duties.map((duty) => [duty.key, duty.whileThere])).toEqual([
      ['bacteria-sample', false],
      ['check-motor-brushes', true],
    ])
    expect(stop?.notes).toEqual(['Gate code 4471', 'Beware: dog'])
  })

  test('goes on another day where an owner wishes one, and a stop keeps the days it was planned with', async () => {
    const saturday = '2026-11-21'
    const { proposal } = proposeStops(db, installer, YARD, { ...WISH, days: [saturday] })
    expect(proposal.days[0]?.stops.map((stop) => stop.label)).toContain('Saturdays')
    const id = await roundWith(['Saturdays', 'R2'])
    const { round, stops } = pageOf(id)
    expect(stops.map((stop) => [stop.label, stop.onlyOn]).sort()).toEqual([
      ['R2', null],
      ['Saturdays', 'Sat'],
    ])
    expect(timetable(round, stops)?.conflicts).toMatchObject([{ kind: 'other-day', onlyOn: 'Sat' }])
    expect([...exportRounds(db, installer)].join('')).toMatch(/^A round,.*,Saturdays,.*,Sat,/m)
    await deleteRound(db, installer, id, AT)
  })

  test('is for those who plan, and needs a yard', () => {
    expect(() => proposeStops(db, technician, YARD, WISH)).toThrow(NotAllowed)
    expect(() => proposeStops(db, owner('o'), YARD, WISH)).toThrow(NotAllowed)
    expect(() => proposeStops(db, installer, { ...YARD, yard: null }, WISH)).toThrow(RangeError)
  })
})

describe('a round', () => {
  test('is stored once however often its plan is sent, in the reckoned order, without wells out of use', async () => {
    const planId = newId()
    const id = await roundWith(['R2', 'Gone', 'R1', 'Nowhere'], planId)
    expect(await roundWith(['R2', 'Gone', 'R1', 'Nowhere'], planId)).toBe(id)
    const { stops, round } = pageOf(id)
    expect(stops.map((stop) => stop.label).at(-1)).toBe('Nowhere')
    expect(stops.map((stop) => stop.label).sort()).toEqual(['Nowhere', 'R1', 'R2'])
    expect(stops.map((stop) => stop.position)).toEqual([1, 2, 3])
    expect(round).toMatchObject({ status: 'planned', yard: YARD.yard })
    expect(stops.find((stop) => stop.label === 'R1')).toMatchObject({
      notBefore: '10:00',
      gateCode: '4471',
      minutes: 50,
    })
    const again = proposeStops(db, installer, YARD, WISH)
    expect(again.onRounds.map((one) => one.label)).toEqual(['Nowhere', 'R1', 'R2'])
    expect(again.proposal.days[0]?.stops.map((stop) => stop.label)).toEqual(['R3'])
    expect((await deleteRound(db, installer, id, AT)).kind).toBe('stored')
    expect(roundPage(db, installer, id)).toBeNull()
  })

  test('is not there for owners, and not changed by those who only drive', async () => {
    const id = await roundWith(['R1'])
    const stopId = pageOf(id).stops[0]?.id ?? ''
    expect(roundPage(db, owner('o'), id)).toBeNull()
    expect(stopPage(db, owner('o'), stopId)).toBeNull()
    expect(roundsToDrive(db, owner('o'), TODAY)).toEqual([])
    expect(() => roundsOf(db, owner('o'), 'planned')).toThrow(NotAllowed)
    expect(roundPage(db, technician, id)?.stops).toHaveLength(1)
    expect(roundsToDrive(db, technician, TODAY).map((round) => round.id)).toContain(id)
    expect(() => removeStop(db, technician, id, 1, stopId, AT)).toThrow(NotAllowed)
    expect(() => addStop(db, technician, id, 1, { wellId: ids.R2 ?? '', dutyKeys: null }, AT)).toThrow(
      NotAllowed,
    )
    await expect(createRounds(db, technician, newId(), [], AT)).rejects.toThrow(NotAllowed)
    await expect(deleteRound(db, technician, id, AT)).rejects.toThrow(NotAllowed)
    expect((await setRoundStatus(db, owner('o'), id, 'out', AT)).kind).toBe('no-such-round')
    const entry = line(ids.R1 ?? '', newId(), { kind: 'note', text: 'x' })
    const sent = await closeStop(db, owner('o'), closingOf(stopId, entry.visitId), [entry], AT, TODAY)
    expect(sent.kind).toBe('no-such-stop')
    await deleteRound(db, installer, id, AT)
  })

  test('takes a new order from whoever saw the present one, and keeps locks', async () => {
    const id = await roundWith(['R1', 'R2', 'R3'])
    const { round, stops } = pageOf(id)
    const turned = stops.map((stop) => stop.id).reverse()
    const lock = new Set([turned[0] ?? ''])
    expect((await reorderRound(db, technician, id, round.version, turned, lock, AT)).kind).toBe('stored')
    expect(pageOf(id).stops.map((stop) => [stop.id, stop.locked])).toEqual(
      turned.map((s) => [s, lock.has(s)]),
    )
    expect((await reorderRound(db, technician, id, round.version, turned, lock, AT)).kind).toBe(
      'changed-since',
    )
    const wrong = await reorderRound(db, technician, id, round.version + 1, turned.slice(1), lock, AT)
    expect(wrong.kind).toBe('refused')
    await deleteRound(db, installer, id, AT)
  })

  test('gains and loses stops, and is changed, by the installer', async () => {
    const id = await roundWith(['R1'])
    const added = await addStop(db, installer, id, 1, { wellId: ids.Quiet ?? '', dutyKeys: null }, AT)
    expect(added.kind).toBe('stored')
    const stop = pageOf(id).stops.find((one) => one.label === 'Quiet')
    expect(stop).toMatchObject({ duties: [], why: ['Added by hand.'], minutes: 10 })
    const twice = await addStop(db, installer, id, 2, { wellId: ids.Quiet ?? '', dutyKeys: null }, AT)
    expect(twice).toMatchObject({ kind: 'refused' })
    const gone = await addStop(db, installer, id, 2, { wellId: ids.Gone ?? '', dutyKeys: null }, AT)
    expect(gone).toMatchObject({ kind: 'refused' })
    expect((await removeStop(db, installer, id, 2, stop?.id ?? '', AT)).kind).toBe('stored')
    const fields = {
      name: 'New name',
      day: '2026-11-23',
      startAt: '07:00',
      endAt: '12:00',
      assignedTo: 'nobody',
      notes: 'n',
    }
    expect((await changeRound(db, installer, id, 3, fields, AT)).kind).toBe('stored')
    expect(pageOf(id).round).toMatchObject({
      name: 'New name',
      startAt: '07:00',
      assignedTo: null,
      version: 4,
    })
    await deleteRound(db, installer, id, AT)
  })

  test('finds wells by label, whatever the case, and says which it does not know', () => {
    const found = wellsNamed(db, installer, ['r1', 'Gone', 'W999', 'R'])
    expect(found.ids).toEqual([ids.R1])
    expect(found.unknown.map((one) => one.text)).toEqual(['Gone', 'W999', 'R'])
    expect(sayUnknown(found.unknown)).toContain('No well in use is called W999')
    // Several begin so: they are offered, and none is taken.
    expect(found.unknown[2]?.near.length).toBeGreaterThan(1)
  })
})

test('every stop of every round leaves in the export, and a round without stops too, only to those who may', async () => {
  const id = await roundWith(['R1', 'R2', 'Nowhere'])
  await roundWith([])
  const text = [...exportRounds(db, installer)].join('')
  const rounds = [...everyRound(db, installer)]
  const stops = rounds.flatMap((page) => page.stops)
  expect(stops).toHaveLength(3)
  expect(text.trim().split('\n')).toHaveLength(1 + stops.length + 1)
  expect(text).toContain('Bacteria sample; Check motor brushes')
  expect(rounds.map((page) => page.round.id)).toContain(id)
  expect(() => [...exportRounds(db, technician)]).toThrow(NotAllowed)
})

test('the yard is a setting of the installer, and a round keeps what it was planned with', async () => {
  const id = await roundWith(['R1'])
  await putYard(db, installer, { ...YARD, roadFactor: 2 }, AT)
  expect(getYard(db).roadFactor).toBe(2)
  expect(pageOf(id).round.driving.roadFactor).toBe(1.35)
  await expect(putYard(db, technician, YARD, AT)).rejects.toThrow(NotAllowed)
})
