import { describe, expect, test } from 'vitest'
import { OUTFIT } from '@/lib/access/viewer'
import type { EntryDraft } from '@/lib/domain/logbook/kinds'
import { pointAt } from '@/lib/domain/place'
import { placeDraft, readPlace } from '@/lib/forms/place/read-place'
import { placeTexts } from '@/lib/forms/place/texts'
import { attach } from '@/lib/records/attachments'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { adoptPosition, offeredPosition, wellPlace } from '@/lib/records/place'
import { record } from '@/lib/records/record'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { installer, owner, technician } from '../setup/viewers'

const AT = '2026-11-20T12:00:00.000Z'
const TODAY = '2026-11-20'

async function aWell(db: Db): Promise<string> {
  const made = await createWell(db, OUTFIT, { ...bareWell('W1'), ownerName: 'Brook Farm' }, AT)
  if (made.kind !== 'stored') throw new Error(made.kind)
  return made.id
}

function draftOf(wellId: string, typed: Record<string, string>): EntryDraft {
  const reading = readPlace({ date: '20 Nov 2026', by: 'Joss', ...typed }, 'metric', TODAY)
  if (!reading.ok) throw new Error(JSON.stringify(reading.errors))
  const draft = placeDraft(newId(), wellId, reading)
  if (!draft) throw new Error('no draft')
  return draft
}

/** A 3-4-5 triangle: door at the zero point, post 8 m east, the well 4 m east and 3 m north. */
const TWO_TAPES = {
  mark1Name: 'door corner',
  mark1Tape: '5',
  mark2Name: 'gate post',
  mark2Tape: '5',
  mark2ToFirst: '8',
  firstToSecond: '90',
  firstToSecondNorth: 'true',
  side: 'left',
  cover: '0.3',
}

describe('a measured place', () => {
  test('is stored, reckoned, and the latest that was not withdrawn stands', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const first = draftOf(wellId, TWO_TAPES)
    const later = { ...draftOf(wellId, { ...TWO_TAPES, mark1Tape: '6' }), occurredOn: '2026-11-20' }
    expect((await record(db, technician, [{ ...first, occurredOn: '2026-11-01' }], AT, TODAY)).kind).toBe(
      'stored',
    )
    const place = wellPlace(db, technician, wellId)
    if (place?.found?.choice?.kind !== 'one') throw new Error('no place')
    const { at } = place.found.choice.chosen.candidate
    expect(at.eastM).toBeCloseTo(4, 9)
    expect(at.northM).toBeCloseTo(3, 9)
    await record(db, technician, [later], AT, TODAY)
    expect(wellPlace(db, technician, wellId)?.measured?.id).toBe(later.id)
    const withdrawal = {
      ...later,
      id: newId(),
      withdraws: later.id,
      payload: { kind: 'withdrawal', reason: 'wrong well' },
    }
    await record(db, technician, [withdrawal], AT, TODAY)
    const again = wellPlace(db, technician, wellId)
    expect(again?.measured?.id).toBe(first.id)
    expect(again?.history.map((line) => line.stands)).toEqual([false, true])
  })

  test('may be seen by its household and by no other, and written by the desk alone', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const { ownerId } = db.sqlite.prepare('SELECT "ownerId" FROM "Well"').get() as { ownerId: string }
    const draft = draftOf(wellId, TWO_TAPES)
    expect((await record(db, owner(ownerId), [draft], AT, TODAY)).kind).toBe('refused')
    expect((await record(db, owner('other'), [draft], AT, TODAY)).kind).toBe('refused')
    await record(db, technician, [draft], AT, TODAY)
    expect(wellPlace(db, owner(ownerId), wellId)?.measured?.id).toBe(draft.id)
    expect(wellPlace(db, owner('other'), wellId)).toBeNull()
  })

  test('shows the photo of a mark at its tie', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const draft = draftOf(wellId, TWO_TAPES)
    await record(db, technician, [draft], AT, TODAY)
    const sharp = (await import('sharp')).default
    const bytes = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#557755' } })
      .png()
      .toBuffer()
    const hung = await attach(db, technician, draft.id, { name: 'post.png', bytes, about: 'gate post' }, AT)
    expect(hung.kind).toBe('stored')
    const place = wellPlace(db, technician, wellId)
    expect(place?.asBuilt.ties.map((tie) => tie.photoId === null)).toEqual([true, false])
    expect(place?.photos[0]?.about).toBe('gate post')
  })
})

describe('the register’s coordinate', () => {
  const door = { latitude: 44.15, longitude: -121.3 }
  const post = pointAt(door, 90, 8)
  const typed = {
    mark1Name: 'door corner',
    mark1Tape: '5',
    mark1Lat: String(door.latitude),
    mark1Lon: String(door.longitude),
    mark1Accuracy: '0.02',
    mark2Name: 'gate post',
    mark2Tape: '5',
    mark2Lat: post.latitude.toFixed(8),
    mark2Lon: post.longitude.toFixed(8),
    mark2Accuracy: '0.02',
    side: 'left',
  }

  test('is offered from the ties, changed only when an installer says so, and stands in the change record', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    await record(db, technician, [draftOf(wellId, typed)], AT, TODAY)
    const place = wellPlace(db, installer, wellId)
    if (!place) throw new Error('no place')
    expect(place.well.latitude).toBeNull()
    const offered = offeredPosition(place, 'ties')
    // 3 m north of the door is 3 / 111,133 degrees at latitude 44.15 (WGS 84).
    expect(offered?.latitude).toBeCloseTo(44.15 + 3 / 111_118, 6)
    await expect(adoptPosition(db, technician, wellId, place.well.version, 'ties', AT)).rejects.toThrow(
      'not allowed',
    )
    expect((await adoptPosition(db, installer, wellId, 99, 'ties', AT)).kind).toBe('changed-since')
    expect((await adoptPosition(db, installer, wellId, place.well.version, 'ties', AT)).kind).toBe('stored')
    const after = wellPlace(db, installer, wellId)
    expect(after?.well.latitude).toBeCloseTo(offered?.latitude ?? 0, 6)
    expect(after && offeredPosition(after, 'ties')).toBeNull()
    const change = db.sqlite.prepare('SELECT * FROM "Change" WHERE "action" = \'well changed\'').get() as {
      after: string
    }
    expect(JSON.parse(change.after).latitude).toBeCloseTo(after?.well.latitude ?? 0, 7)
    expect((await adoptPosition(db, installer, wellId, after?.well.version ?? 0, 'ties', AT)).kind).toBe(
      'nothing-new',
    )
  })
})

describe('what cannot be relied on', () => {
  test('ties that do not fit each other offer no position to the register', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    // The head lies 7 m from the boulder, not 3: two of the three cannot be right.
    const off = { mark3Name: 'boulder', mark3Tape: '3', mark3East: '4', mark3North: '10' }
    const local = { mark1East: '0', mark1North: '0', mark2East: '8', mark2North: '0', ...off }
    const { mark2ToFirst: _, firstToSecond: _b, firstToSecondNorth: _c, ...tapes } = TWO_TAPES
    const typed = { ...tapes, ...local, originLat: '44.15', originLon: '-121.3' }
    await record(db, technician, [draftOf(wellId, typed)], AT, TODAY)
    const place = wellPlace(db, installer, wellId)
    expect(place?.found?.findings.some((finding) => finding.kind === 'wrong')).toBe(true)
    expect(place && offeredPosition(place, 'ties')).toBeNull()
  })

  test('a coordinate that marks without a place on the globe cannot check is said to be unchecked', async () => {
    const db = await freshDb()
    const wellId = await aWell(db)
    const typed = { ...TWO_TAPES, fixLat: '44.15', fixLon: '-121.3', fixAccuracy: '5' }
    await record(db, technician, [draftOf(wellId, typed)], AT, TODAY)
    const says = wellPlace(db, technician, wellId)?.found?.findings.map((finding) => finding.says) ?? []
    expect(says.join(' ')).toContain('not held against the coordinate')
  })
})

describe('the form', () => {
  const read = (typed: Record<string, string>) =>
    readPlace({ date: '20 Nov 2026', ...typed }, 'metric', TODAY)
  const errors = (typed: Record<string, string>) => {
    const reading = read(typed)
    return reading.ok ? {} : reading.errors
  }

  test.each([
    ['nothing at all', {}, 'fixLat'],
    ['a tape without a mark', { mark2Tape: '4' }, 'mark2Name'],
    ['two marks of one name', { mark1Name: 'post', mark2Name: 'post' }, 'mark2Name'],
    ['a slope without a tape', { mark1Name: 'post', mark1Slope: '1' }, 'mark1Tape'],
    ['half a position', { fixLat: '44.1' }, 'fixLon'],
    ['an accuracy of no position', { fixAccuracy: '5', cover: '1' }, 'fixLat'],
    [
      'marks placed in two ways',
      { mark1Name: 'a', mark2Name: 'b', mark2ToFirst: '8', mark1East: '0' },
      'mark1East',
    ],
    ['a mark placed by half', { mark1Name: 'a', mark1East: '0' }, 'mark1North'],
    ['a bearing beyond a full turn', { pacedMark: 'a', pacedBearing: '361' }, 'pacedBearing'],
    ['paces from nowhere', { paces: '20' }, 'pacedMark'],
    [
      'a bearing between marks without their distance',
      { mark1Name: 'a', firstToSecond: '90' },
      'firstToSecond',
    ],
    ['a tape of nothing', { mark1Name: 'a', mark1Tape: '0' }, 'mark1Tape'],
  ])('refuses %s and says at which field', (_, typed, field) => {
    expect(Object.keys(errors(typed as Record<string, string>))).toContain(field)
  })

  test('takes a pair of numbers pasted into the first field', () => {
    const reading = read({ fixLat: '44.15, -121.3', fixAccuracy: '6' })
    if (!reading.ok) throw new Error(JSON.stringify(reading.errors))
    expect(reading.fact.fix).toMatchObject({
      latitude: 44.15,
      longitude: -121.3,
      how: 'phone',
      accuracy: { si: 6 },
    })
  })

  const all: [string, Record<string, string>][] = [
    [
      'distances between marks',
      { ...TWO_TAPES, mark3Name: 'oak', mark3ToFirst: '9', mark3ToSecond: '5', mark3Side: 'right' },
    ],
    [
      'metres east and north',
      {
        mark1Name: 'a',
        mark1East: '0',
        mark1North: '0',
        mark2Name: 'b',
        mark2East: '-3.5',
        mark2North: '2',
        mark1Tape: '3',
        mark1Slope: '8°',
        mark2Tape: '4',
        mark2Slope: '-0.4',
        originLat: '44.1',
        originLon: '-121.2',
      },
    ],
    [
      'everything else',
      {
        fixLat: '44.15',
        fixLon: '-121.3',
        fixAccuracy: '7',
        fixHow: 'survey',
        pacedMark: 'a',
        paces: '24',
        pace: '0.8',
        pacedBearing: '120',
        pacedNorth: 'magnetic',
        pacedBearingNorth: 'magnetic',
        declination: '-12.5',
        note: 'under the hazel',
        mark1Name: 'a',
        mark1About: 'split larch',
      },
    ],
  ]
  test.each(all)('comes back for a correction as it was typed: %s', (_, typed) => {
    const reading = read(typed)
    if (!reading.ok) throw new Error(JSON.stringify(reading.errors))
    const again = read(placeTexts(reading.fact, 'metric'))
    if (!again.ok) throw new Error(JSON.stringify(again.errors))
    expect(again.fact).toEqual(reading.fact)
  })
})
