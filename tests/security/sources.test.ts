import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'

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
