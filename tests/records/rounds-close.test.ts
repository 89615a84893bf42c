import { beforeAll, describe, expect, test } from 'vitest'
import { AGAIN_KEY } from '@/lib/domain/place'
import { followUpsOfWell, openFollowUps, settleStop } from '@/lib/records/follow-ups'
import { newId } from '@/lib/records/ids'
import { proposeStops } from '@/lib/records/round-proposal'
import { deleteRound, removeStop, setRoundStatus } from '@/lib/records/round-writes'
import { closeStop } from '@/lib/records/rounds-close'
import { installer, owner, technician } from '../setup/viewers'
import {
  AT,
  closingOf,
  db,
  entriesOf,
  ids,
  line,
  makeFleet,
  pageOf,
  roundWith,
  service,
  TODAY,
  WISH,
  YARD,
} from './rounds-fleet'

beforeAll(makeFleet)

describe('a stop that is closed', () => {
  async function stopAt(label: string) {
    const id = await roundWith([label])
    const stop = pageOf(id).stops[0]
    if (!stop) throw new Error('the round has no stop')
    return { id, stop, wellId: stop.wellId }
  }

  test('as done needs every duty ticked, leaves its lines, and sends the round out', async () => {
    const { id, stop, wellId } = await stopAt('R1')
    const before = entriesOf('R1')
    const visitId = newId()
    const half = [line(wellId, visitId, service(['bacteria-sample']))]
    const refused = await closeStop(db, technician, closingOf(stop.id, visitId), half, AT, TODAY)
    expect(refused).toMatchObject({ kind: 'refused', problems: [{ index: -1, field: 'outcome' }] })
    expect(entriesOf('R1')).toBe(before)
    const all = [line(wellId, visitId, service(['bacteria-sample', 'check-motor-brushes']))]
    const sent = await closeStop(db, technician, closingOf(stop.id, visitId), all, AT, TODAY)
    expect(sent).toEqual({ kind: 'stored', holds: true })
    const again = await closeStop(db, technician, closingOf(stop.id, visitId), all, AT, TODAY)
    expect(again).toEqual({ kind: 'already' })
    expect(entriesOf('R1')).toBe(before + 1)
    expect(pageOf(id).stops[0]).toMatchObject({ outcome: 'done', visitId, nextSteps: [], closedBy: 'Joss' })
    expect(pageOf(id).round.status).toBe('out')
    expect((await deleteRound(db, installer, id, AT)).kind).toBe('refused')
    expect((await removeStop(db, installer, id, pageOf(id).round.version, stop.id, AT)).kind).toBe('refused')
    await setRoundStatus(db, technician, id, 'closed', AT)
  })

  test.each([
    [
      'not-found',
      'both ties, probed around',
      ['call-owner', 'mend-place', 'search', 'stays-due', 'stays-due', 'visit-again'],
    ],
    ['no-access', 'gate locked', ['call-owner', 'stays-due', 'stays-due', 'visit-again']],
  ] as const)(
    'as %s leaves the event, keeps the duties due, and is offered again',
    async (outcome, said, kinds) => {
      const { id, stop, wellId } = await stopAt('R2')
      const before = entriesOf('R2')
      const visitId = newId()
      const steps = ['visit-again', 'call-owner', 'mend-place', 'search']
      const closing = closingOf(stop.id, visitId, { outcome, said, steps })
      const event = line(wellId, visitId, { kind: 'event', event: outcome })
      const none = await closeStop(db, technician, closing, [], AT, TODAY)
      expect(none.kind).toBe('refused')
      const silent = await closeStop(db, technician, { ...closing, said: '' }, [event], AT, TODAY)
      expect(silent).toMatchObject({ kind: 'refused', problems: [{ index: -1, field: 'said' }] })
      const other = line(wellId, visitId, { kind: 'note', text: 'x' })
      expect((await closeStop(db, technician, closing, [other], AT, TODAY)).kind).toBe('refused')
      expect((await closeStop(db, technician, closing, [event], AT, TODAY)).kind).toBe('stored')
      expect(entriesOf('R2')).toBe(before + 1)
      const open = followUpsOfWell(db, technician, wellId)
      expect(open).toHaveLength(1)
      expect(open[0]?.steps.map((step) => step.kind).sort()).toEqual(kinds)
      expect(open[0]?.steps.find((step) => step.kind === 'visit-again')?.by).toBe('2026-11-27')
      await setRoundStatus(db, technician, id, 'closed', AT)
      const found = proposeStops(db, installer, YARD, WISH).proposal.days[0]?.stops
      const back = found?.find((one) => one.wellId === wellId)
      expect(back?.duties.map((duty) => duty.key).sort()).toContain(AGAIN_KEY)
      expect(back?.duties.map((duty) => duty.key)).toContain('bacteria-sample')
    },
  )

  test('settles what earlier stops there left, and can be settled by hand', async () => {
    const wellId = ids.R2 ?? ''
    expect(followUpsOfWell(db, installer, wellId)).toHaveLength(1)
    const { stop } = await stopAt('R2')
    expect(stop.why.join(' ')).toContain('Left on')
    const visitId = newId()
    const closing = closingOf(stop.id, visitId, {
      outcome: 'partly',
      madeAt: '2026-11-20T13:00:00.000Z',
      said: 'no bottle',
      other: 'Bring a ladder.',
    })
    const lines = [line(wellId, visitId, service(['check-motor-brushes']))]
    expect((await closeStop(db, technician, closing, lines, AT, TODAY)).kind).toBe('stored')
    const [open, ...more] = followUpsOfWell(db, installer, wellId)
    expect(more).toEqual([])
    expect(open?.steps.map((step) => step.words)).toEqual([
      'Bacteria sample is still due: no bottle.',
      'Bring a ladder.',
    ])
    expect(await settleStop(db, owner('o'), stop.id, AT)).toBe(false)
    expect(await settleStop(db, technician, stop.id, AT)).toBe(true)
    expect(await settleStop(db, technician, stop.id, AT)).toBe(false)
    expect(openFollowUps(db, installer)).toEqual([])
    expect(openFollowUps(db, owner('o'))).toEqual([])
  })

  test('by two devices keeps every line, and the closing made later holds in either order of arrival', async () => {
    const ends: unknown[] = []
    for (const order of [
      [0, 1],
      [1, 0],
      [1, 0, 1, 0, 0],
    ]) {
      const { id, stop, wellId } = await stopAt('R3')
      const before = entriesOf('R3')
      const [a, b] = [newId(), newId()]
      const sent = [
        {
          closing: closingOf(stop.id, a, {
            outcome: 'no-access',
            said: 'locked',
            madeAt: '2026-11-20T09:00:00.000Z',
          }),
          drafts: [line(wellId, a, { kind: 'event', event: 'no-access' })],
        },
        {
          closing: closingOf(stop.id, b, {
            outcome: 'partly',
            said: 'came back',
            madeAt: '2026-11-20T11:00:00.000Z',
          }),
          drafts: [line(wellId, b, { kind: 'note', text: 'Owner came home.' })],
        },
      ]
      for (const i of order) {
        const one = sent[i]
        if (one) await closeStop(db, technician, one.closing, one.drafts, AT, TODAY)
      }
      expect(entriesOf('R3')).toBe(before + 2)
      const page = pageOf(id)
      const { outcome, said, nextSteps, closedAt } = page.stops[0] ?? {}
      ends.push({ outcome, said, nextSteps, closedAt })
      await setRoundStatus(db, technician, id, 'closed', AT)
      const changes = db.sqlite
        .prepare('SELECT COUNT(*) FROM "Change" WHERE "targetKind" = \'stop\' AND "targetId" = ?')
        .pluck()
        .get(stop.id)
      expect(changes).toBe(2)
    }
    expect(ends[0]).toMatchObject({ outcome: 'partly', said: 'came back' })
    expect(ends[1]).toEqual(ends[0])
    expect(ends[2]).toEqual(ends[0])
  })

  test('refuses lines of another well, and stores nothing of them', async () => {
    const { id, stop } = await stopAt('R3')
    const before = entriesOf('R1')
    const visitId = newId()
    const foreign = [line(ids.R1 ?? '', visitId, { kind: 'note', text: 'elsewhere' })]
    const closing = closingOf(stop.id, visitId, { outcome: 'partly', said: 'x' })
    expect((await closeStop(db, technician, closing, foreign, AT, TODAY)).kind).toBe('refused')
    expect(entriesOf('R1')).toBe(before)
    expect((await closeStop(db, technician, { stopId: 'x' }, [], AT, TODAY)).kind).toBe('refused')
    expect((await closeStop(db, technician, closingOf(newId(), visitId), foreign, AT, TODAY)).kind).toBe(
      'no-such-stop',
    )
    await deleteRound(db, installer, id, AT)
  })
})
