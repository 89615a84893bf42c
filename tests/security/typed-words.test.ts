import { beforeAll, describe, expect, test } from 'vitest'
import { z } from 'zod'
import type { Viewer } from '@/lib/access/viewer'
import { exportCsv } from '@/lib/exchange/export'
import * as accountForms from '@/lib/forms/accounts'
import { parseForm } from '@/lib/forms/form'
import { readDueQuery, readWellsQuery, readYieldQuery } from '@/lib/forms/list-filters'
import { readMapQuery } from '@/lib/forms/map-query'
import { partForm } from '@/lib/forms/part-form'
import { readWaterQuery } from '@/lib/forms/water-query'
import { wellFieldsOf, wellForm } from '@/lib/forms/well-form'
import { WELL_QUANTITIES } from '@/lib/forms/well-quantities'
import { createUser } from '@/lib/records/accounts'
import type { Db } from '@/lib/records/db'
import { dueCounts, duePage, URGENCIES } from '@/lib/records/due-list'
import { acceptInvitation, invite, openInvitation } from '@/lib/records/invitations'
import { makeFeed, personOfQuietToken, quietToken, userOfFeedToken } from '@/lib/records/mail-choice'
import { mapWells } from '@/lib/records/map-wells'
import { acceptReset, makeMailReset, makeResetCard, openReset } from '@/lib/records/resets'
import { signIn, viewerFromHeaders } from '@/lib/records/sessions'
import { waterCounts, waterPage } from '@/lib/records/water-fleet'
import { bareWell } from '@/lib/records/well-fields'
import { wellList } from '@/lib/records/well-list'
import { createWell } from '@/lib/records/wells'
import { yieldPage } from '@/lib/records/yield-list'
import { loadDemo } from '@/seed'
import { freshDb } from '../setup/fresh-db'
import { installer, owner } from '../setup/viewers'

const TODAY = '2026-11-20'
const AT = '2026-11-20T12:00:00.000Z'
const TEXTS = ['name', 'ownerName', 'area', 'access', 'notes'] as const
const formOf = (fields: Record<string, string>) => {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.set(name, value)
  return form
}

describe('what is typed', () => {
  test.each([
    '%252e%252e%252fetc',
    '&amp;lt;b&amp;gt;',
    '<b>&"\'',
    '{{7*7}}',
    '\u0024{7*7}',
    '%s%n%d',
    '\\u003cb',
  ])('%j is stored and searched as it is, decoded by nobody, and leaves in a file as it is', async (text) => {
    const db = await freshDb()
    const typed = { label: 'W-1', ...Object.fromEntries(TEXTS.map((name) => [name, text])) }
    const parsed = parseForm(wellForm('us', TODAY), formOf(typed))
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.state.errors))
    const made = await createWell(db, installer, wellFieldsOf(parsed.value, parsed.typed, null), AT)
    if (made.kind !== 'stored') throw new Error(made.kind)
    const row = db.sqlite.prepare('SELECT * FROM "Well" WHERE "id" = ?').get(made.id) as Record<
      string,
      string
    >
    for (const name of ['name', 'area', 'access', 'notes']) expect(row[name], name).toBe(text)
    const csv = [...exportCsv(db, installer, 'wells')].join('')
    expect(csv).toContain(text.replaceAll('"', '""'))
    // Of the address, which the server has decoded once.
    expect(readWellsQuery({ q: text, area: text, owner: text }).texts).toMatchObject({
      q: text,
      area: text,
      owner: text,
    })
  })
})

describe('a form', () => {
  const forms = { ...accountForms, partForm: partForm(TODAY), wellForm: wellForm('us', TODAY) }
  const objects = Object.entries(forms).flatMap(([name, form]) =>
    form instanceof z.ZodObject ? ([[name, form]] as const) : [],
  )

  test('is one of many that are looked at here', () => {
    expect(objects.length).toBeGreaterThan(14)
  })

  test.each(objects)(
    '%s refuses a text longer than any field is, in every field, with a sentence',
    (_name, form) => {
      for (const field of Object.keys(form.shape)) {
        const sent = { [field]: `${'x'.repeat(4990)} and more` }
        const parsed = parseForm(form, formOf(sent))
        // Looked up, compared or one of a few words, and stored nowhere as typed.
        if (['id', 'ownerId', 'next', 'current', 'to', 'role', 'units', 'beside'].includes(field)) continue
        expect(parsed.ok ? 'taken' : (parsed.state.errors[field] ?? 'taken'), field).not.toBe('taken')
      }
    },
  )

  test.each(objects)('%s takes no field that it does not have', (_name, form) => {
    const more = {
      role: 'installer',
      ownerId: 'smith',
      id: 'mine',
      createdBy: 'Eve',
      disabled: 'false',
      struck: '1',
    }
    const sent = formOf({
      ...Object.fromEntries(Object.keys(form.shape).map((name) => [name, 'x'])),
      ...more,
    })
    const parsed = parseForm(form, sent)
    const got = parsed.ok ? Object.keys(parsed.value as object) : Object.keys(parsed.state.typed)
    expect(got.filter((name) => !Object.hasOwn(form.shape, name))).toEqual([])
  })
})

describe('a number', () => {
  test.each(['1e309', 'NaN', 'Infinity', '-Infinity', '9007199254740993', '0x10', '--1', '1,5', '１２'])(
    '%j never becomes an amount out of range, nor one that is none',
    (text) => {
      for (const [name, { min, max }] of Object.entries(WELL_QUANTITIES)) {
        const parsed = parseForm(wellForm('us', TODAY), formOf({ label: 'W', [name]: text }))
        if (!parsed.ok) {
          expect(Object.values(parsed.state.errors).join(' ').length).toBeGreaterThan(5)
          continue
        }
        const amount = (parsed.value as Record<string, unknown>)[name] as { si: number } | null
        if (amount === null) continue
        expect(amount.si).toBeGreaterThanOrEqual(min)
        expect(amount.si).toBeLessThanOrEqual(max)
      }
    },
  )

  test('below nothing is refused where there is no such thing', () => {
    const parsed = parseForm(wellForm('us', TODAY), formOf({ label: 'W', wellDepthM: '-1', storageM3: '-1' }))
    expect(parsed.ok ? [] : Object.keys(parsed.state.errors).sort()).toEqual(['storageM3', 'wellDepthM'])
  })
})

describe('statements of the database', () => {
  let db: Db
  beforeAll(async () => {
    db = await freshDb()
    await loadDemo(db, AT, TODAY)
  }, 120_000)

  const HEADS = [
    "'",
    '"',
    "')",
    '1',
    '\\',
    "x' OR '1'='1",
    'x" OR "1"="1',
    '%',
    '_',
    '*',
    '^',
    'a*',
    '"a" NEAR "b"',
  ]
  const TAILS = [
    '',
    '; DROP TABLE "Well";--',
    ' UNION SELECT * FROM "Account"--',
    '/**/',
    '\u0000',
    ' LIMIT -1',
  ]
  const TRIES = HEADS.flatMap((head) => TAILS.map((tail) => head + tail))
  const counts = () =>
    ['Well', 'Owner', 'Entry', 'User', 'DueItem'].map((name) =>
      db.sqlite.prepare(`SELECT COUNT(*) FROM "${name}"`).pluck().get(),
    )

  test('take what addresses ask for as words: 78 tries at each list find nothing, break nothing and change nothing', () => {
    const before = counts()
    expect(TRIES.length).toBe(78)
    for (const word of TRIES) {
      const params = Object.fromEntries(
        ['q', 'area', 'owner', 'duty', 'after', 'group', 'cause', 'status', 'wells'].map((name) => [
          name,
          word,
        ]),
      )
      const none = owner('no such household')
      for (const viewer of [installer, none] satisfies Viewer[]) {
        const wells = readWellsQuery(params)
        expect(
          wellList(db, viewer, { ...wells.filter, search: undefined }, wells.after, 9).rows,
          word,
        ).toEqual([])
        wellList(db, viewer, { search: word }, null, 9)
        const due = readDueQuery(params)
        for (const urgency of URGENCIES)
          expect(duePage(db, viewer, TODAY, urgency, due.filter, null, 9).rows, word).toEqual([])
        duePage(db, viewer, TODAY, 'past', {}, word, 9)
        expect(Object.values(dueCounts(db, viewer, TODAY, due.filter)).join(), word).toBe('0,0,0,0,0')
        const water = readWaterQuery(params)
        expect(waterPage(db, viewer, TODAY, 'never', water.filter, null, 9).rows, word).toEqual([])
        waterPage(db, viewer, TODAY, 'never', {}, word, 9)
        expect(
          Object.values(waterCounts(db, viewer, TODAY, water.filter)).every((n) => n === 0),
          word,
        ).toBe(true)
        const yields = readYieldQuery(params)
        expect(yieldPage(db, viewer, yields.filter, null, 9).rows, word).toEqual([])
        yieldPage(db, viewer, {}, word, 9)
      }
      expect(wellList(db, owner('no such household'), { search: word }, null, 9).rows, word).toEqual([])
      expect(mapWells(db, installer, TODAY, readMapQuery(params).filter), word).toEqual([])
    }
    expect(counts()).toEqual(before)
  })

  test('find a text that looks like a pattern by its words, and at once', () => {
    for (const word of ['.*(a+)+$', '[', '(?:x', '%%%%']) {
      const from = performance.now()
      wellList(db, installer, { search: word }, null, 50)
      expect(performance.now() - from, word).toBeLessThan(2000)
    }
  })
})

describe('a code or token of one purpose', () => {
  test('opens nothing of another, all pairs', async () => {
    const db = await freshDb()
    const person = { name: 'Ada', email: 'ada@pairs.example', password: 'gravel sock and twine' }
    await createUser(db, installer, { ...person, role: 'technician', ownerId: null }, AT)
    const { id: userId } = await db.prisma.user.findUniqueOrThrow({ where: { email: person.email } })
    await db.prisma.owner.create({ data: { id: 'smith', name: 'Smith', nameKey: 'smith' } })
    const viewer = { ...installer, userId }
    const made = {
      // A card for a new password takes the place of a link by mail: one after the other.
      'reset by mail': (await makeMailReset(db, person.email, AT))?.code ?? '',
      invitation: (await invite(db, installer, 'smith', 'Bo', AT))?.code ?? '',
      feed: await makeFeed(db, viewer, AT),
      quiet: await quietToken(db, userId),
      session: await sessionOf(db, person),
    }
    const opens: Record<string, (code: string) => boolean | Promise<boolean>> = {
      reset: (code) => openReset(db, code, AT) !== null,
      invitation: (code) => openInvitation(db, code, AT) !== null,
      feed: (code) => userOfFeedToken(db, code) !== null,
      quiet: (code) => personOfQuietToken(db, code) !== null,
      session: async (code) => {
        const cookie = `wellround=${encodeURIComponent(code)}`
        return (await viewerFromHeaders(db, new Headers({ cookie }))) !== null
      },
    }
    const table: Record<string, string[]> = {}
    for (const [purpose, code] of Object.entries(made)) {
      expect(code, purpose).not.toBe('')
      table[purpose] = []
      for (const [door, open] of Object.entries(opens)) if (await open(code)) table[purpose].push(door)
    }
    expect(table).toEqual({
      'reset by mail': ['reset'],
      invitation: ['invitation'],
      feed: ['feed'],
      quiet: ['quiet'],
      session: ['session'],
    })
    const card = (await makeResetCard(db, installer, userId, AT))?.code ?? ''
    expect([openReset(db, card, AT) !== null, openInvitation(db, card, AT)]).toEqual([true, null])
    const eve = { name: 'Eve', email: 'eve@pairs.example', password: person.password }
    for (const code of [card, made.feed, made.quiet])
      expect(await acceptInvitation(db, code, eve, AT)).toBe('no-such-invitation')
    for (const code of [made.invitation, made.feed, made.quiet, made['reset by mail']])
      expect(await acceptReset(db, code, 'a lantern by the pit', AT)).toBe('no-such-code')
  })

  async function sessionOf(
    db: Db,
    { email, password }: { email: string; password: string },
  ): Promise<string> {
    const outcome = await signIn(db, email, password, new Headers())
    if (outcome.kind !== 'signed-in') throw new Error(outcome.kind)
    return outcome.cookies[0]?.value ?? ''
  }
})

describe('where asking who may fails', () => {
  test('nobody is let in, and nothing is written or told', async () => {
    const db = await freshDb()
    await loadDemo(db, AT, TODAY)
    const person = { name: 'Ada', email: 'ada@closed.example', password: 'gravel sock and twine' }
    await createUser(db, installer, { ...person, role: 'installer', ownerId: null }, AT)
    const outcome = await signIn(db, person.email, person.password, new Headers())
    if (outcome.kind !== 'signed-in') throw new Error(outcome.kind)
    const cookie = outcome.cookies.map(({ name, value }) => `${name}=${encodeURIComponent(value)}`).join('; ')
    expect(await viewerFromHeaders(db, new Headers({ cookie }))).not.toBeNull()
    // A role that the program does not know, and then no households to look up at all.
    await db.prisma.user.update({ where: { email: person.email }, data: { role: 'emperor' } })
    await expect(viewerFromHeaders(db, new Headers({ cookie }))).rejects.toThrow('emperor')
    await db.prisma.user.update({ where: { email: person.email }, data: { role: 'installer' } })
    db.sqlite.exec('ALTER TABLE "Membership" RENAME TO "Gone"')
    await expect(viewerFromHeaders(db, new Headers({ cookie }))).rejects.toThrow('Membership')
    db.sqlite.exec('ALTER TABLE "Gone" RENAME TO "Membership"')
    const broken = { ...installer, role: 'emperor' } as unknown as Viewer
    const before = db.sqlite.prepare('SELECT COUNT(*) FROM "Well"').pluck().get()
    await expect(createWell(db, broken, { ...bareWell('X-1'), ownerName: null }, AT)).rejects.toThrow()
    expect(wellList(db, broken, {}, null, 9).rows).toEqual([])
    expect(() => [...exportCsv(db, broken, 'wells')]).toThrow()
    expect(db.sqlite.prepare('SELECT COUNT(*) FROM "Well"').pluck().get()).toBe(before)
  }, 120_000)
})
