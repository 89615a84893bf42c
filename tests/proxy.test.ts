import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { NextRequest } from 'next/server'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { proxy } from '@/proxy'

// What is refused is noted beside the database.
const data = mkdtempSync(join(tmpdir(), 'wellround-proxy-'))
const before = process.env.WELLROUND_DATA
beforeAll(() => {
  process.env.WELLROUND_DATA = data
})
afterAll(() => {
  if (before === undefined) delete process.env.WELLROUND_DATA
  else process.env.WELLROUND_DATA = before
  rmSync(data, { recursive: true, force: true })
})

const ask = (method: string, headers: Record<string, string> = {}) =>
  proxy(
    new NextRequest('http://wells.example:3000/wells?q=a', {
      method,
      headers: { host: 'wells.example:3000', ...headers },
    }),
  )

describe('a request that changes something', () => {
  test.each([
    ['names no origin', {}],
    ['has the origin "null"', { origin: 'null' }],
    ['comes from another site', { origin: 'https://evil.example' }],
    ['comes from another port of this host', { origin: 'http://wells.example:4000' }],
    ['comes from a host that only begins like ours', { origin: 'http://wells.example:3000.evil.example' }],
    [
      'claims to be forwarded for a foreign host',
      { origin: 'https://evil.example', 'x-forwarded-host': 'evil.example' },
    ],
  ])('is refused when it %s', (_what, headers: Record<string, string>) => {
    for (const method of ['POST', 'PUT', 'PATCH', 'DELETE'])
      expect(ask(method, headers).status, method).toBe(403)
  })

  test('is let through from a page of this site', () => {
    expect(ask('POST', { origin: 'http://wells.example:3000' }).status).toBe(200)
  })

  test('is not asked where it comes from when it only reads', () => {
    expect(ask('GET').status).toBe(200)
  })
})

describe('every answer', () => {
  const directives = (policy: string) =>
    new Map(policy.split('; ').map((line) => [line.split(' ')[0] ?? '', line.split(' ').slice(1)]))

  test('runs only scripts that carry its own number, and is framed by nobody', () => {
    const policy = directives(ask('GET').headers.get('content-security-policy') ?? '')
    expect(policy.get('script-src')).toEqual([
      "'self'",
      expect.stringMatching(/^'nonce-[0-9a-f]{32}'$/),
      "'strict-dynamic'",
    ])
    for (const name of ['object-src', 'base-uri', 'frame-ancestors'])
      expect(policy.get(name), name).toEqual(["'none'"])
    expect([...policy.values()].flat()).not.toContain("'unsafe-inline'")
  })

  test('that is a file people sent in runs nothing, and can pretend to belong to no site', () => {
    const answer = proxy(new NextRequest('http://wells.example:3000/api/attachments/1'))
    const policy = directives(answer.headers.get('content-security-policy') ?? '')
    expect([...policy]).toEqual([
      ['default-src', ["'none'"]],
      ['sandbox', []],
      ['frame-ancestors', ["'none'"]],
    ])
  })

  test('has a number of its own, which Next reads from the request', () => {
    const [first, second] = [ask('GET'), ask('GET')]
    const policy = first.headers.get('content-security-policy')
    expect(policy).not.toBe(second.headers.get('content-security-policy'))
    expect(first.headers.get('x-middleware-request-content-security-policy')).toBe(policy)
  })

  test('is kept nowhere, and says so even when it refuses', () => {
    for (const answer of [ask('GET'), ask('POST')]) {
      expect(answer.headers.get('cache-control')).toBe('no-store')
      expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
    }
  })

  test('keeps to https for a year, with the hosts below, where the address of the site is one', async () => {
    const strict = async (env: Record<string, string>) => {
      for (const [name, value] of Object.entries(env)) vi.stubEnv(name, value)
      vi.resetModules()
      const { proxy: fresh } = await import('@/proxy')
      const asked = ['/wells', '/nowhere', '/api/attachments/1', '/_next/static/a.js'].map((path) =>
        fresh(new NextRequest(`https://wells.example${path}`)),
      )
      const foreign = new NextRequest('https://wells.example/', { method: 'POST' })
      const said = [...asked, fresh(foreign)].map(({ headers }) => headers.get('strict-transport-security'))
      vi.unstubAllEnvs()
      return [...new Set(said)]
    }
    const https = { WELLROUND_URL: 'https://wells.example' }
    expect(await strict(https)).toEqual(['max-age=31536000; includeSubDomains'])
    expect(await strict({ ...https, WELLROUND_SUBDOMAINS: 'http' })).toEqual(['max-age=31536000'])
    expect(await strict({ WELLROUND_URL: 'http://localhost:3000' })).toEqual([null])
  })

  test('replaces a path that the client made up', () => {
    const answer = ask('GET', { 'x-wellround-path': '//evil.example' })
    expect(answer.headers.get('x-middleware-request-x-wellround-path')).toBe('/wells?q=a')
  })
})
