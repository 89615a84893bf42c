import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { asvsRows } from './tables'

/** Names of rows by chapter and section, with the requirements of levels 1 and 2 that apply: 190 in all. */
const APPLY = `1.1 1 2
  1.2 1 2 3 4 5 9
  1.3 2 3 4 5 6 7 10 11
  1.4 2
  1.5 1 2
  2.1 1 2 3
  2.2 1 2 3
  2.3 1 2 3 4
  2.4 1
  3.2 1 2
  3.3 1 2 3 4
  3.4 1 2 3 4 5 6
  3.5 1 2 3 4 5
  3.7 1 2
  4.1 1 2 3
  4.2 1
  5.1 1
  5.2 1 2 3
  5.3 1 2
  5.4 1 2 3
  6.1 1 2 3
  6.2 1 2 3 4 5 6 7 8 9 10 11 12
  6.3 1 2 3 4
  6.4 1 2 3 4
  6.5 1 2 3 4 5
  6.6 2 3
  7.1 1 2
  7.2 1 2 3 4
  7.3 1 2
  7.4 1 2 3 4 5
  7.5 1 2
  8.1 1 2
  8.2 1 2 3
  8.3 1
  8.4 1
  9.1 1 2
  9.2 1 2
  11.1 1 2
  11.2 1 2 3
  11.3 1 2 3
  11.4 1 2 3 4
  11.5 1
  11.6 1
  12.1 1 2
  12.2 1 2
  12.3 1 2 3
  13.1 1
  13.2 1 2 3 4 5
  13.3 1 2
  13.4 1 2 3 4 5
  14.1 1 2
  14.2 1 2 3 4
  14.3 1 2 3
  15.1 1 2 3
  15.2 1 2 3
  15.3 1 2 3 4 5 6 7
  16.1 1
  16.2 1 2 3 4 5
  16.3 1 2 3 4
  16.4 1 2 3
  16.5 1 2 3`
  .split('\n')
  .flatMap((line) => {
    const [section, ...numbers] = line.trim().split(' ')
    return numbers.map((number) => `V${section}.${number}`)
  })

/** Where the tests lie that the table names in short. */
const FILES: Readonly<Record<string, string>> = {
  'accounts-form': 'tests/forms/accounts.test.ts',
  'people-browser': 'tests/browser/people.test.ts',
  'people-mails': 'tests/security/people-mails.test.ts',
  'register-browser': 'tests/browser/register.test.ts',
  'samples-browser': 'tests/browser/samples.test.ts',
  accounts: 'tests/records/accounts.test.ts',
  answers: 'tests/browser/answers.test.ts',
  attachments: 'tests/records/attachments.test.ts',
  batch: 'tests/exchange/batch.test.ts',
  'due-list': 'tests/records/due-list.test.ts',
  forget: 'tests/records/forget.test.ts',
  import: 'tests/exchange/import.test.ts',
  invitations: 'tests/records/invitations.test.ts',
  'logbook-writes': 'tests/records/logbook-writes.test.ts',
  memberships: 'tests/records/memberships.test.ts',
  mutations: 'tests/security/mutations.test.ts',
  'password-rules': 'tests/forms/password-rules.test.ts',
  proxy: 'tests/proxy.test.ts',
  'register-examples': 'tests/forms/register-examples.test.ts',
  'register-forms': 'tests/forms/register-forms.test.ts',
  reliability: 'tests/reliability/reliability.test.ts',
  resets: 'tests/records/resets.test.ts',
  'role-matrix': 'tests/browser/role-matrix.test.ts',
  'role-matrix-bare': 'tests/browser/role-matrix-bare.test.ts',
  sale: 'tests/records/sale.test.ts',
  'sign-in': 'tests/browser/sign-in.test.ts',
  'security-log': 'tests/records/security-log.test.ts',
  sources: 'tests/security/sources.test.ts',
  structure: 'tests/structure.test.ts',
  calendar: 'tests/exchange/calendar.test.ts',
  'code-patience': 'tests/records/code-patience.test.ts',
  encrypted: 'tests/mail/encrypted.test.ts',
  'export-slots': 'tests/exchange/export-slots.test.ts',
  keys: 'tests/records/keys.test.ts',
  localhost: 'tests/browser/localhost.test.ts',
  'mail-down': 'tests/remind/mail-down.test.ts',
  phone: 'tests/browser/phone.test.ts',
  'request-checks': 'tests/request-checks.test.ts',
  shield: 'tests/browser/shield.test.ts',
  'shield-words': 'tests/browser/shield-words.test.ts',
  tables: 'tests/security/tables.test.ts',
  'typed-words': 'tests/security/typed-words.test.ts',
  unpack: 'tests/exchange/unpack.test.ts',
}

const rows = asvsRows()

test('every row of the standard that applies stands in the table, once, and no other', () => {
  expect(rows.map(({ id }) => id)).toEqual(APPLY)
  expect(APPLY).toHaveLength(190)
})

describe('what is said to hold a row does', () => {
  test.each(rows)('$id', ({ asked, held }) => {
    expect(asked).not.toBe('')
    const [first = '', reason = ''] = held.split(/: (.*)/s)
    if (first === 'exception') return expect(reason.length, held).toBeGreaterThan(20)
    for (const one of held.split(' + ')) {
      const [name = '', said = ''] = one.split(/: (.*)/s)
      expect(said.length, one).toBeGreaterThan(5)
      const file = FILES[name] ?? ''
      expect(existsSync(file), one).toBe(true)
      expect(titlesOf(file), one).toContain(said)
    }
  })
})

/** The titles of a file's tests and of what they stand in: a comment that says the same holds nothing. */
function titlesOf(file: string): string {
  const quoted = /\b(?:test|describe)(?:\.each\([\s\S]*?\))?\(\s*(['`"])([\s\S]*?)\1/g
  const source = readFileSync(file, 'utf8')
  // A file may run the tests of another under other conditions.
  const others = [...source.matchAll(/^import '\.\/([\w-]+\.test)'$/gm)].map(([, name]) =>
    titlesOf(join(dirname(file), `${name}.ts`)),
  )
  return [...[...source.matchAll(quoted)].map(([, , title]) => title), ...others].join('\n')
}
