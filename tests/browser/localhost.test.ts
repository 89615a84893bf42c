import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { connect, createServer } from 'node:net'
import { networkInterfaces, tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'

const freePort = () =>
  new Promise<number>((done, fail) => {
    const probe = createServer()
    probe.once('error', fail)
    probe.listen(0, () => {
      const address = probe.address()
      probe.close(() =>
        typeof address === 'object' && address ? done(address.port) : fail(new Error('no port')),
      )
    })
  })
const reached = (host: string, port: number) =>
  new Promise<boolean>((done) => {
    const socket = connect({ host, port, timeout: 5000 })
    const end = (answer: boolean) => {
      socket.destroy()
      done(answer)
    }
    socket.on('connect', () => end(true))
    socket.on('error', () => end(false))
    socket.on('timeout', () => end(false))
  })

test('as started it listens on this machine alone', async () => {
  const data = mkdtempSync(join(tmpdir(), 'wellround-start-'))
  const port = await freePort()
  const env = { ...process.env, PORT: String(port), WELLROUND_DATA: data, WELLROUND_DEMO: 'off' }
  delete (env as { HOST?: string }).HOST
  const child = spawn(process.execPath, ['lib/cli/start.mjs'], { env, stdio: 'ignore' })
  const ended = new Promise((done) => child.once('exit', done))
  try {
    await expect
      .poll(async () => (await fetch(`http://localhost:${port}/health`).catch(() => null))?.ok, {
        timeout: 300_000,
        interval: 300,
      })
      .toBe(true)
    const others = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .filter(({ internal, family }) => !internal && family === 'IPv4')
      .map(({ address }) => address)
    // On Linux this is the machine itself too, and "localhost" is not meant by it: there is always something to ask.
    for (const host of [...others, ...(process.platform === 'linux' ? ['127.0.0.7'] : [])])
      expect(await reached(host, port), host).toBe(false)
  } finally {
    child.kill('SIGTERM')
    await ended
    rmSync(data, { recursive: true, force: true })
  }
})
