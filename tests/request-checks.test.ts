import { describe, expect, test } from 'vitest'
import { DOOR_BYTES_MAX, FORM_BYTES_MAX } from '@/lib/domain/limits'
import { type RequestHead, stops } from '@/lib/request-checks'

const ORIGIN = { host: 'wells.example:3000', origin: 'http://wells.example:3000' }
const head = (headers: Record<string, string>, more: Partial<RequestHead> = {}): RequestHead => ({
  method: 'POST',
  path: '/wells/new',
  headers: new Headers({ ...ORIGIN, ...headers }),
  cookies: ['wellround'],
  ...more,
})
const what = (each: RequestHead) => stops(each, undefined)?.what ?? 'goes on'

describe('by its head alone a request is stopped', () => {
  test.each([
    ['a form as large as allowed', { 'content-length': String(FORM_BYTES_MAX) }, 'goes on'],
    ['a form one byte larger', { 'content-length': String(FORM_BYTES_MAX + 1) }, 'body-refused'],
    ['a call of an action', { 'next-action': 'a'.repeat(42) }, 'goes on'],
    ['a call of no action', { 'next-action': '../../etc/passwd' }, 'call-refused'],
    ['a call of an action with a name too long', { 'next-action': 'a'.repeat(43) }, 'call-refused'],
    ['another site', { origin: 'https://evil.example' }, 'origin-refused'],
  ])('%s', (_what, headers: Record<string, string>, wanted) => {
    expect(what(head(headers))).toBe(wanted)
  })

  test.each([
    ['a small form', { 'content-length': String(DOOR_BYTES_MAX) }, 'goes on'],
    ['a large one', { 'content-length': String(DOOR_BYTES_MAX + 1) }, 'body-refused'],
    ['one that does not say how long it is', { 'transfer-encoding': 'chunked' }, 'body-refused'],
  ])('of somebody who is not signed in: %s', (_what, headers: Record<string, string>, wanted) => {
    expect(what(head(headers, { cookies: ['theme'] }))).toBe(wanted)
  })

  test('of a phone whose session has run out goes on to where it is asked to sign in', () => {
    const sent = { path: '/api/v1/photos', cookies: [] }
    expect(what(head({ 'content-length': String(DOOR_BYTES_MAX + 1) }, sent))).toBe('goes on')
    expect(what(head({ 'content-length': String(FORM_BYTES_MAX + 1) }, sent))).toBe('body-refused')
  })

  test('what only reads is not looked at, and the press of a mail program needs no origin', () => {
    expect(what(head({ origin: 'https://evil.example' }, { method: 'GET' }))).toBe('goes on')
    const press = { path: '/api/quiet/abc', headers: new Headers({ host: 'wells.example' }), cookies: [] }
    expect(what({ ...head({}), ...press })).toBe('goes on')
  })
})
