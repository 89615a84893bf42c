/** Fifty owners and two office users at once on one server over a large fleet: what a page and a save cost each of them. */
import { execFileSync, spawn } from 'node:child_process'
import { readFileSync, renameSync } from 'node:fs'
import { createServer } from 'node:net'
import { dirname, join } from 'node:path'
import type { Db } from '@/lib/records/db'
import { newId } from '@/lib/records/ids'
import { hashPassword } from '@/lib/records/passwords'
import { benchFleet, TODAY } from './fleet-db'

const OWNERS = 50
const OFFICE = 2
/** How often each person goes through their pages without a pause, and with one. */
const ROUNDS = { hurried: 6, calm: 3 }
/** Between two pages of one person, as people read: this long on average, half of it to half as much again. */
const PAUSE_MS = 5000
const PASSWORD = 'a stone in every shoe'

type Figure = { name: string; value: number; unit: string }
type Someone = { role: 'owner' | 'installer'; email: string; wellId: string }
type Timed = { kind: 'page' | 'save'; ms: number; ok: boolean }

/**
 * What a page and a save take of 52 people who ask again at once, and of as many who read for some seconds in between, as
 * people do; and how many were refused or failed. Builds first where it must.
 */
export async function benchCrowd(wells: number): Promise<Figure[]> {
  execFileSync(process.execPath, ['-e', "import('./lib/cli/build.mjs').then((build) => build.ensureBuilt())"])
  const db = await benchFleet(wells)
  const people = await makePeople(db)
  const folder = dirname(db.file)
  db.sqlite.pragma('wal_checkpoint(TRUNCATE)')
  await db.close()
  const { url, pid, stop } = await serve(folder, db.file)
  try {
    const cookies = await Promise.all(people.map((someone) => signIn(url, someone)))
    const crowd = async (rounds: number, pauseMs: number) => {
      const days = people.map((someone, i) => oneDay(url, someone, cookies[i] ?? '', rounds, pauseMs))
      return (await Promise.all(days)).flat()
    }
    const named = `${OWNERS} owners and ${OFFICE} of the office at once, ${wells.toLocaleString('en-US')} wells`
    const before = processorMs(pid)
    const hurried = await crowd(ROUNDS.hurried, 0)
    const after = processorMs(pid)
    const calm = await crowd(ROUNDS.calm, PAUSE_MS)
    return [
      ...figuresOf(`${named}, without a pause`, hurried),
      ...(before === null || after === null
        ? []
        : [
            {
              name: '  processor time of the server, a request',
              value: (after - before) / asked(hurried),
              unit: 'ms',
            },
          ]),
      ...figuresOf(`${named}, a page each ${PAUSE_MS / 1000} s`, calm),
    ]
  } finally {
    await stop()
  }
}

function figuresOf(named: string, timed: readonly Timed[]): Figure[] {
  return [
    { name: `${named}: page, middle`, value: percentile(timed, 'page', 0.5), unit: 'ms' },
    { name: '  page, 95 of 100', value: percentile(timed, 'page', 0.95), unit: 'ms' },
    { name: '  save, 95 of 100', value: percentile(timed, 'save', 0.95), unit: 'ms' },
    { name: '  requests', value: asked(timed), unit: '' },
    { name: '  errors', value: timed.filter(({ ok }) => !ok).length, unit: '' },
  ]
}

/** A save opens its form first: two requests. */
const asked = (timed: readonly Timed[]) => timed.length + timed.filter(({ kind }) => kind === 'save').length

/** Processor time that a process has taken, all threads; null where the system does not tell it as Linux does. */
function processorMs(pid: number): number | null {
  if (process.platform !== 'linux') return null
  const [, numbers = ''] = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')
  const [user, system] = numbers.split(' ').slice(11, 13)
  // Counted in hundredths of a second.
  return 10 * (Number(user) + Number(system))
}

async function makePeople(db: Db): Promise<Someone[]> {
  const password = await hashPassword(PASSWORD)
  const wells = await db.prisma.well.findMany({
    where: { ownerId: { not: null } },
    select: { id: true, ownerId: true },
    orderBy: { labelKey: 'asc' },
    take: OWNERS + OFFICE,
  })
  const people: Someone[] = []
  for (const [i, { id: wellId, ownerId }] of wells.entries()) {
    const role = i < OWNERS ? 'owner' : 'installer'
    const id = newId()
    const email = `${role}-${i}@crowd.example`
    await db.prisma.user.create({
      data: {
        id,
        name: `Person ${i}`,
        email,
        role,
        accounts: { create: { id: newId(), accountId: id, providerId: 'credential', password } },
        ...(role === 'owner' && ownerId ? { memberships: { create: { ownerId, since: '2020-01-01' } } } : {}),
      },
    })
    people.push({ role, email, wellId })
  }
  return people
}

/** One person: looks at pages and saves, in turn. */
async function oneDay(
  url: string,
  { role, wellId }: Someone,
  cookie: string,
  rounds: number,
  pauseMs: number,
): Promise<Timed[]> {
  const pages =
    role === 'owner'
      ? ['/own', `/own/${wellId}`, `/own/${wellId}/what-if`]
      : ['/', `/wells/${wellId}`, '/water']
  const timed: Timed[] = []
  const steps = [
    ...pages.map((path) => () => look(url + path, cookie)),
    () => (role === 'owner' ? saveTank(url, wellId, cookie) : saveVisit(url, wellId, cookie)),
  ]
  for (let round = 0; round < rounds; round += 1) {
    for (const step of steps) {
      await new Promise((done) => setTimeout(done, pauseMs * (0.5 + Math.random())))
      timed.push(await step())
    }
  }
  return timed
}

async function look(address: string, cookie: string): Promise<Timed> {
  const from = performance.now()
  const answer = await opened(address, cookie)
  await answer.text()
  return { kind: 'page', ms: performance.now() - from, ok: answer.status === 200 }
}

/** As a browser opens a page: once more where the server had just closed the line that was kept open. */
async function opened(address: string, cookie: string): Promise<Response> {
  const ask = () => fetch(address, { headers: { cookie }, redirect: 'manual' })
  try {
    return await ask()
  } catch (error) {
    const cause = error instanceof TypeError ? error.cause : null
    if (cause instanceof Error && 'code' in cause && cause.code === 'ECONNRESET') return ask()
    throw error
  }
}

/** A form sent as a browser without script sends it: opened first, which is not in the time, then posted. */
async function save(url: string, path: string, cookie: string, more: Record<string, string>): Promise<Timed> {
  const page = await (await opened(url + path, cookie)).text()
  // Of the forms of a page, the one that writes into the logbook carries a number for what it writes.
  const form = page.split('<form').find((part) => part.includes('name="visitId"')) ?? ''
  const body = new FormData()
  for (const [tag] of form.matchAll(/<input type="hidden"[^>]*>/g)) {
    const name = /name="([^"]*)"/.exec(tag)?.[1]
    if (name) body.append(name, unescaped(/value="([^"]*)"/.exec(tag)?.[1] ?? ''))
  }
  for (const [name, value] of Object.entries(more)) body.set(name, value)
  const from = performance.now()
  const answer = await fetch(url + path, {
    method: 'POST',
    headers: { cookie, origin: url },
    body,
    redirect: 'manual',
  })
  await answer.text()
  // What was stored leads on; what was refused shows the form again.
  return { kind: 'save', ms: performance.now() - from, ok: answer.status === 303 }
}

const saveTank = (url: string, wellId: string, cookie: string) =>
  save(url, `/own/${wellId}/tank`, cookie, { tank: 'half' })
const saveVisit = (url: string, wellId: string, cookie: string) =>
  save(url, `/wells/${wellId}/visit`, cookie, { date: TODAY, note: 'All quiet', by: 'Maren' })

const unescaped = (text: string) =>
  text.replaceAll('&quot;', '"').replaceAll('&#x27;', "'").replaceAll('&lt;', '<').replaceAll('&amp;', '&')

async function signIn(url: string, { email }: Someone): Promise<string> {
  const page = await (await fetch(`${url}/sign-in`)).text()
  const body = new FormData()
  for (const [tag] of page.matchAll(/<input type="hidden"[^>]*>/g)) {
    const name = /name="([^"]*)"/.exec(tag)?.[1]
    if (name) body.append(name, unescaped(/value="([^"]*)"/.exec(tag)?.[1] ?? ''))
  }
  body.set('email', email)
  body.set('password', PASSWORD)
  const answer = await fetch(`${url}/sign-in`, {
    method: 'POST',
    headers: { origin: url },
    body,
    redirect: 'manual',
  })
  const cookie = answer.headers
    .getSetCookie()
    .map((line) => line.split(';')[0])
    .join('; ')
  if (cookie === '') throw new Error(`${email} was not let in: ${answer.status}`)
  return cookie
}

function percentile(timed: readonly Timed[], kind: Timed['kind'], share: number): number {
  const times = timed
    .filter((one) => one.kind === kind)
    .map(({ ms }) => ms)
    .sort((a, b) => a - b)
  return times[Math.ceil(times.length * share) - 1] ?? Number.NaN
}

async function serve(
  folder: string,
  file: string,
): Promise<{ url: string; pid: number; stop(): Promise<void> }> {
  const port = await freePort()
  const url = `http://localhost:${port}`
  renameSync(file, join(folder, 'wellround.db'))
  const server = spawn(process.execPath, ['node_modules/next/dist/bin/next', 'start', '-p', String(port)], {
    env: {
      ...process.env,
      NODE_ENV: 'production',
      PORT: String(port),
      WELLROUND_DATA: folder,
      WELLROUND_TODAY: TODAY,
      WELLROUND_REMIND: 'off',
    },
    stdio: ['ignore', 'ignore', 'inherit'],
  })
  for (let i = 0; ; i += 1) {
    if (i > 300 || server.exitCode !== null) throw new Error('the server did not answer')
    if ((await fetch(`${url}/health`).catch(() => null))?.ok) break
    await new Promise((done) => setTimeout(done, 200))
  }
  return {
    url,
    pid: server.pid ?? 0,
    stop: async () => {
      const ended = new Promise((done) => server.once('exit', done))
      server.kill('SIGTERM')
      await ended
    },
  }
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer()
    probe.once('error', reject)
    probe.listen(0, 'localhost', () => {
      const address = probe.address()
      probe.close(() =>
        typeof address === 'object' && address ? resolve(address.port) : reject(new Error('no port')),
      )
    })
  })
}
