import { NextRequest } from 'next/server'
import { describe, expect, test } from 'vitest'
import { proxy } from '@/proxy'

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

  test('replaces a path that the client made up', () => {
    const answer = ask('GET', { 'x-wellround-path': '//evil.example' })
    expect(answer.headers.get('x-middleware-request-x-wellround-path')).toBe('/wells?q=a')
  })
})
