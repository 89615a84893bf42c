import { beforeEach, describe, expect, test } from 'vitest'
import { NotAllowed } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { createUser } from '@/lib/records/accounts'
import { attach, attachmentsOf, openAttachment } from '@/lib/records/attachments'
import type { Db } from '@/lib/records/db'
import { duePage, URGENCIES } from '@/lib/records/due-list'
import { grantsOfWell, pastWell, pastWells, revokeGrant } from '@/lib/records/grants'
import { newId } from '@/lib/records/ids'
import { householdIdsOf } from '@/lib/records/memberships'
import { ownWell } from '@/lib/records/own-well'
import { record } from '@/lib/records/record'
import { type Sale, sellWell } from '@/lib/records/sale'
import { samplePage } from '@/lib/records/sample-page'
import { WATER_GROUPS, waterPage } from '@/lib/records/water-fleet'
import { bareWell } from '@/lib/records/well-fields'
import { wellList } from '@/lib/records/well-list'
import { testsOfWell } from '@/lib/records/well-tests'
import { wellWater } from '@/lib/records/well-water'
import { createWell, updateWell, visibleWell } from '@/lib/records/wells'
import { freshDb } from '../setup/fresh-db'
import { PDF } from '../setup/hostile-files'
import { installer, owner, technician } from '../setup/viewers'

const BEFORE = '2026-11-10T12:00:00.000Z'
const SOLD = '2026-11-20T12:00:00.000Z'
const AFTER = '2026-11-25T12:00:00.000Z'
/** Words that the household of before wrote or is known by, and that nobody else may ever read. */
const CANARIES = [
  'Smithson',
  'Adabel',
  'adabel@old.example',
  '555-0101',
  'ring the bell at the blue door',
  'Smithson kitchen',
]
let db: Db
let wellId: string
let sheetId: string
let former: string
let buyer: string
let adabel: string

const viewerOf = (userId: string, name: string): Viewer => ({
  ...owner(...householdIdsOf(db, userId)),
  userId,
  name,
})
const old = () => viewerOf(adabel, 'Adabel')
const fresh = (): Viewer => ({ ...owner(buyer), userId: newId(), name: 'Nell' })
const draft = (payload: Fact, on: string, id = newId()) => ({
  id,
  wellId,
  visitId: newId(),
  occurredOn: on,
  occurredTime: null,
  byName: 'Adabel Smithson',
  supersedes: null,
  withdraws: null,
  payload,
})
const sheet: Fact = {
  kind: 'sample',
  sampledAt: '2026-11-08T08:00',
  receivedAt: '2026-11-08T11:00',
  sampler: 'Adabel Smithson',
  point: 'Smithson kitchen',
  results: [{ analyte: 'Nitrate as N', result: '1.2', unit: 'mg/L' }],
}
const sale = (more: Partial<Sale> = {}): Sale => ({
  ownerName: 'Newcomer',
  ownerPhone: null,
  ownerEmail: null,
  wellName: null,
  on: '2026-11-20',
  mayRead: false,
  ...more,
})

beforeEach(async () => {
  db = await freshDb()
  const made = await createWell(
    db,
    installer,
    {
      ...bareWell('W1'),
      name: 'Smithson place',
      ownerName: 'Smithson',
      ownerPhone: '555-0101',
      visitFrom: '10:00',
      visitDays: 'Tue, Sat',
      gateCode: '4471',
    },
    BEFORE,
  )
  if (made.kind !== 'stored') throw new Error(made.kind)
  wellId = made.id
  former = visibleWell(db, installer, wellId)?.ownerId ?? ''
  const person = { name: 'Adabel', email: 'adabel@old.example', password: 'gravel sock and twine' }
  await createUser(db, installer, { ...person, role: 'owner', ownerId: former }, BEFORE)
  adabel = (await db.prisma.user.findUniqueOrThrow({ where: { email: person.email } })).id
  sheetId = newId()
  const lines = [
    draft(sheet, '2026-11-08', sheetId),
    draft({ kind: 'note', text: 'ring the bell at the blue door' }, '2026-11-09'),
    draft(
      { kind: 'meter-reading', meter: 'hours', reading: { si: 36000, typed: '10 h' }, explained: null },
      '2026-11-09',
    ),
  ]
  const sent = await record(db, old(), lines, BEFORE, '2026-11-10')
  if (sent.kind !== 'stored') throw new Error(JSON.stringify(sent))
  const filed = await attach(db, old(), sheetId, { name: 'smithson.pdf', bytes: PDF }, BEFORE)
  if (filed.kind !== 'stored') throw new Error(filed.kind)
})

async function sold(more: Partial<Sale> = {}) {
  expect(await sellWell(db, installer, wellId, sale(more), SOLD)).toBe('done')
  buyer = visibleWell(db, installer, wellId)?.ownerId ?? ''
}

/** Everything that lib/records tells this viewer about the well and the fleet, as text. */
async function everything(viewer: Viewer): Promise<string> {
  const files = attachmentsOf(db, viewer, sheetId)
  const [file] = await db.prisma.attachment.findMany()
  return JSON.stringify([
    wellList(db, viewer, {}, null, 50),
    wellList(db, viewer, { search: 'smithson' }, null, 50),
    URGENCIES.map((urgency) => duePage(db, viewer, '2026-11-25', urgency, {}, null, 50)),
    WATER_GROUPS.map((group) => waterPage(db, viewer, '2026-11-25', group, {}, null, 50)),
    ownWell(db, viewer, wellId),
    wellWater(db, viewer, wellId),
    samplePage(db, viewer, wellId, sheetId),
    testsOfWell(db, viewer, wellId),
    pastWells(db, viewer),
    pastWell(db, viewer, wellId),
    files,
    file ? (await openAttachment(db, viewer, file.id))?.row : null,
  ])
}

describe('after a sale', () => {
  test('the former household sees nothing of the well, by any way', async () => {
    expect(await everything(old())).toContain(wellId)
    await sold()
    const seen = await everything(old())
    for (const word of [wellId, sheetId, 'W1', 'Newcomer', buyer]) expect(seen).not.toContain(word)
    // Word for word what somebody reads who never had a well.
    expect(seen).toBe(await everything(owner(null)))
  })

  test('the former household cannot write to it', async () => {
    await sold()
    const note = draft({ kind: 'note', text: 'mine still' }, '2026-11-21')
    expect(await record(db, old(), [note], AFTER, '2026-11-25')).toEqual({ kind: 'no-such-well' })
    expect(await attach(db, old(), sheetId, { name: 'x.pdf', bytes: PDF }, AFTER)).toEqual({
      kind: 'no-such-entry',
    })
  })

  test('the new household reads what was measured, and no word or name of the one before', async () => {
    await sold()
    const seen = await everything(fresh())
    expect(seen).toContain('Nitrate as N')
    expect(seen).toContain('meter-reading')
    expect(seen).toContain('a former owner')
    for (const word of [...CANARIES, adabel, former]) expect(around(seen, word), word).toBe('')
  })

  test('and what it writes itself it reads as written', async () => {
    await sold()
    const lines = [draft({ kind: 'note', text: 'the pump hums' }, '2026-11-24')]
    const nell = fresh()
    await createUser(
      db,
      installer,
      {
        name: 'Nell',
        email: 'nell@new.example',
        password: 'gravel sock and twine',
        role: 'owner',
        ownerId: buyer,
      },
      SOLD,
    )
    const { id } = await db.prisma.user.findUniqueOrThrow({ where: { email: 'nell@new.example' } })
    expect((await record(db, { ...nell, userId: id }, lines, AFTER, '2026-11-25')).kind).toBe('stored')
    const seen = ownWell(db, { ...nell, userId: id }, wellId)
    expect(seen?.visits[0]).toMatchObject({ by: ['Nell'] })
    expect(JSON.stringify(seen)).toContain('the pump hums')
  })

  test('what the former household wished of visits keeps nobody away, and the code of the gate stays', async () => {
    await sold()
    expect(visibleWell(db, installer, wellId)).toMatchObject({
      visitFrom: null,
      visitUntil: null,
      visitDays: null,
      gateCode: '4471',
    })
  })

  test('the outfit still reads all of it', async () => {
    await sold()
    const seen = await everything(technician)
    for (const word of ['ring the bell at the blue door', 'Smithson kitchen', 'Adabel'])
      expect(seen).toContain(word)
  })

  test('an owner changed on the form of the well counts as a sale too', async () => {
    const fields = { ...bareWell('W1'), ownerName: 'Newcomer' }
    expect((await updateWell(db, installer, wellId, 1, fields, SOLD)).kind).toBe('stored')
    buyer = visibleWell(db, installer, wellId)?.ownerId ?? ''
    const seen = await everything(fresh())
    for (const word of CANARIES) expect(around(seen, word), word).toBe('')
  })
})

describe('what was granted', () => {
  test('is the logbook up to the day and up to the sale, and nothing of later', async () => {
    await sold({ mayRead: true, wellName: 'Newcomer place' })
    const later = [
      draft({ kind: 'note', text: 'written after' }, '2026-11-22'),
      draft({ kind: 'note', text: 'written after about before' }, '2026-11-09'),
    ]
    expect((await record(db, technician, later, AFTER, '2026-11-25')).kind).toBe('stored')
    expect(pastWells(db, old()).map((grant) => grant.called)).toEqual(['Smithson place'])
    const past = JSON.stringify(pastWell(db, old(), wellId))
    expect(past).toContain('ring the bell at the blue door')
    for (const word of ['written after', 'Newcomer', buyer]) expect(past).not.toContain(word)
    expect(visibleWell(db, old(), wellId)).toBeNull()
    for (const other of [fresh(), owner('somebody'), owner(null), installer])
      expect(pastWell(db, other, wellId)).toBeNull()
  })

  test('ends when the installer takes it back', async () => {
    await sold({ mayRead: true })
    const [grant] = grantsOfWell(db, installer, wellId)
    expect(await revokeGrant(db, installer, grant?.id ?? '', AFTER)).toBe('done')
    expect(await revokeGrant(db, installer, grant?.id ?? '', AFTER)).toBe('not-open')
    expect(pastWell(db, old(), wellId)).toBeNull()
  })
})

test('a sale to the same household or of no well does nothing, and only an installer sells', async () => {
  expect(await sellWell(db, installer, wellId, sale({ ownerName: ' smithson ' }), SOLD)).toBe(
    'same-household',
  )
  expect(await sellWell(db, installer, newId(), sale(), SOLD)).toBe('no-such-well')
  for (const viewer of [technician, old()]) {
    await expect(sellWell(db, viewer, wellId, sale(), SOLD)).rejects.toThrow(NotAllowed)
    await expect(revokeGrant(db, viewer, 'x', SOLD)).rejects.toThrow(NotAllowed)
    expect(() => grantsOfWell(db, viewer, wellId)).toThrow(NotAllowed)
  }
})

/** Where a word stands in what was told, with some text around it; '' where it does not. */
function around(text: string, word: string): string {
  const at = text.indexOf(word)
  return at < 0 ? '' : text.slice(Math.max(0, at - 120), at + 80)
}
