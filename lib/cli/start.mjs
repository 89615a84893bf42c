/**
 * `npm start`: from a fresh copy of the sources to a running site. Installs, migrates, loads the demo fleet
 * into an empty database (not with WELLROUND_DEMO=off), builds and serves; does only what is not done yet.
 * `--dev` serves with rebuilding on every change instead.
 *
 * Settings: PORT (3000), HOST (localhost), WELLROUND_DATA (./data), WELLROUND_URL (the public address),
 * WELLROUND_ZONE (time zone), WELLROUND_DEMO.
 */
import { spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { join, resolve } from 'node:path'
import { ensureBuilt } from './build.mjs'
import { ensureGenerated, ensureInstalled, exitOf, loudly, main, ROOT, Stop, say } from './steps.mjs'

const DEV = process.argv.includes('--dev')
const PORT = process.env.PORT ?? '3000'
const HOST = process.env.HOST ?? 'localhost'
const READY_WITHIN_MS = 60_000

await main(async () => {
  await refuseTakenPort()
  await ensureInstalled()
  await ensureGenerated()
  const prepared = await loudly(process.execPath, ['--import', 'tsx', 'lib/cli/prepare.ts'])
  if (prepared !== 0) throw new Stop('Not started: see above.')
  if (!DEV) await ensureBuilt()
  return serve()
})

async function serve() {
  const next = join(ROOT, 'node_modules', 'next', 'dist', 'bin', 'next')
  // The server's own start-up lines say nothing that ours do not; its errors are shown.
  const child = spawn(process.execPath, [next, DEV ? 'dev' : 'start', '-p', PORT, '-H', HOST], {
    cwd: ROOT,
    env: { ...process.env, PORT, NEXT_TELEMETRY_DISABLED: '1', NODE_ENV: DEV ? 'development' : 'production' },
    stdio: ['ignore', DEV ? 'inherit' : 'ignore', 'inherit'],
  })
  let stopping = false
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) {
    process.on(signal, () => {
      stopping = true
      child.kill('SIGTERM')
    })
  }
  const ended = exitOf(child)
  if (await answers(ended)) tellWhere()
  const code = await ended
  return stopping ? 0 : code
}

/** Waits for the first answer of the site; false where the server ended before. */
async function answers(ended) {
  let over = false
  ended.then(() => {
    over = true
  })
  const until = Date.now() + READY_WITHIN_MS
  while (!over && Date.now() < until) {
    try {
      const answer = await fetch(`${address()}/health`)
      if (answer.ok) return true
    } catch {
      // Not listening yet.
    }
    await new Promise((done) => setTimeout(done, 100))
  }
  if (!over) say('The server runs but does not answer yet.')
  return false
}

function tellWhere() {
  say(`\nWellround is ready: ${process.env.WELLROUND_URL ?? address()}`)
  const file = resolve(process.env.WELLROUND_DATA ?? 'data', 'demo-sign-ins.json')
  if (existsSync(file)) {
    say('\nDemo sign-ins (an invented outfit; passwords as first made):')
    for (const { role, email, password } of JSON.parse(readFileSync(file, 'utf8'))) {
      say(`  ${role.padEnd(11)}${email.padEnd(32)}${password}`)
    }
  }
  const local = /^(?:localhost|127\.|\[?::1\]?$)/.test(HOST)
  if (!local && !process.env.WELLROUND_URL?.startsWith('https:'))
    say(
      '\nOther machines reach it without https: passwords cross the network for all to read. Put a server that speaks https before it, and set WELLROUND_URL.',
    )
  say('\nStop with Ctrl-C.')
}

function address() {
  const shown = HOST === '0.0.0.0' || HOST === '::' ? 'localhost' : HOST
  return `http://${shown.includes(':') ? `[${shown}]` : shown}:${PORT}`
}

/** Said before the minutes of a first start are spent, not after. */
async function refuseTakenPort() {
  const probe = createServer()
  await new Promise((free, failed) => {
    probe.once('error', (error) =>
      failed(new Stop(`Port ${PORT} on ${HOST} cannot be used (${error.code}). Set PORT to another one.`)),
    )
    probe.listen(Number(PORT), HOST, () => probe.close(free))
  })
}
