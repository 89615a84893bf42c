import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { textParam } from '@/lib/forms/list-filters'

const sources = (...folders: string[]): string[] =>
  folders.flatMap((folder) =>
    readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
      const path = join(folder, entry.name)
      if (path === join('lib', 'records', 'generated')) return []
      if (entry.isDirectory()) return sources(path)
      return /\.(ts|tsx|mjs)$/.test(entry.name) ? [path] : []
    }),
  )
const offenders = (wrong: RegExp, ...folders: string[]) =>
  [...sources(...folders), 'proxy.ts'].filter((path) => wrong.test(readFileSync(path, 'utf8')))

test('no code is made from text, and no markup from strings', () => {
  expect(offenders(/\beval\(|new Function\(|dangerouslySetInnerHTML|\.innerHTML/, 'app', 'lib')).toEqual([])
})

test('nothing that serves starts another program', () => {
  const starting = offenders(/child_process/, 'app', 'lib').filter(
    (path) => !path.startsWith(join('lib', 'cli')),
  )
  expect(starting).toEqual([])
})

test('no statement of the database is put together by its unsafe doors', () => {
  expect(offenders(/\$(query|execute)RawUnsafe/, 'app', 'lib', 'seed')).toEqual([])
})

test('nothing rests on a broken hash, a cipher of our own, or dice that can be foreseen', () => {
  expect(
    offenders(/createHash\('(md5|sha1)'\)|createCipher|createDecipher|Math\.random/, 'app', 'lib'),
  ).toEqual([])
})

test('no pattern is made from what people type', () => {
  const made = offenders(/new RegExp\(/, 'app', 'lib')
  expect(made).toEqual([])
})

test('what serves asks no other host for anything: only code for the browser fetches, and commands', () => {
  const asking = offenders(/\bfetch\(|https?\.(request|get)\(/, 'app', 'lib').filter(
    (path) => !path.startsWith(join('lib', 'cli')) && !path.startsWith(join('app', '_offline')),
  )
  // Drawn in the browser alone, and loaded there.
  expect(asking).toEqual([
    join('app', '(desk)', 'import', 'job', '[jobId]', 'progress.tsx'),
    join('app', 'ui', 'map', 'open-map.ts'),
  ])
  expect(readFileSync(asking[0] ?? '', 'utf8')).toMatch(/^'use client'/)
})

test('no page listens to messages of another, but to word that a list changed, which carries nothing', () => {
  const listening = offenders(
    /addEventListener\(\s*['"]message|\.onmessage\s*=|\.addEventListeners\(\)/,
    'app',
  )
  expect(listening).toEqual([join('app', '_offline', 'queue.ts')])
  // Called without looking at what came.
  expect(readFileSync(listening[0] ?? '', 'utf8')).toContain('onmessage = callback')
  expect(readFileSync(listening[0] ?? '', 'utf8')).toMatch(/callback: \(\) => void/)
})

test('nothing of the past is in the pages: no applet, plug-in, frame set or script by another language', () => {
  expect(
    offenders(
      /<(?:applet|embed|object|frameset|marquee|keygen)\b|application\/x-shockwave|vbscript:/i,
      'app',
    ),
  ).toEqual([])
})

test('the check of certificates is turned off nowhere', () => {
  expect(offenders(/rejectUnauthorized|NODE_TLS|checkServerIdentity|ignoreTLS/, 'app', 'lib')).toEqual([])
})

test('no password, key or secret stands in the sources', () => {
  const wrong =
    /-----BEGIN|(?:secret|password|token|apiKey)['"]?\s*[:=]\s*['"](?=[^'"]*\d)[A-Za-z0-9+/=_-]{12,}['"]|smtps?:\/\/[^\s:'"`]+:[^\s@'"`]+@(?!mail\.example)/i
  expect(offenders(wrong, 'app', 'lib', 'seed')).toEqual([])
  // The pattern is no empty one.
  expect(wrong.test("const secret = 'abcdefgh12345678'")).toBe(true)
})

/** Every use of `<Field ...>` in the forms, and of the field for a new password. */
const fields = () =>
  sources('app')
    .filter((path) => path.endsWith('.tsx'))
    .flatMap((path) =>
      [...readFileSync(path, 'utf8').matchAll(/<(?:\w*Field|input)\b[^>]*?\/?>/gs)].map(([tag]) => tag),
    )
/** What the field for a new password is made of: it takes its name from who uses it. */
const SHARED = /<Field\s[^>]*name=\{name\}[^>]*>/s
const asksPassword = (tag: string) =>
  tag.startsWith('<NewPasswordField') || /name="(?:password|current|fresh)"/.test(tag)

test('every field for a password is masked and left to password managers', () => {
  const asking = fields().filter(asksPassword)
  expect(asking.length).toBeGreaterThan(6)
  const [shared = ''] = SHARED.exec(readFileSync(join('app', 'ui', 'account-fields.tsx'), 'utf8')) ?? []
  for (const tag of [shared, ...asking]) {
    // Whoever uses the shared field changes neither.
    if (tag.startsWith('<NewPasswordField')) expect(tag).not.toMatch(/\b(?:type|autoComplete)=/)
    else {
      expect(tag).toContain('type="password"')
      expect(tag).toMatch(/autoComplete="(?:new|current)-password"/)
    }
  }
})

test('nothing hinders pasting, and nobody is asked for a hint or a secret question', () => {
  expect(offenders(/onPaste|onpaste|Listener\(['"]paste/, 'app')).toEqual([])
  expect(readFileSync('prisma/schema.prisma', 'utf8')).not.toMatch(/hint|secretQuestion|passwordChangedAt/i)
})

test('of a parameter that stands twice the first counts', () => {
  expect(textParam({ q: ['one', 'two'] }, 'q')).toBe('one')
  expect(textParam({ q: 'one' }, 'q')).toBe('one')
})
