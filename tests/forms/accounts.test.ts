import { describe, expect, test } from 'vitest'
import { firstRunForm, localPath, passwordForm } from '@/lib/forms/accounts'
import { parseForm } from '@/lib/forms/form'

describe('the page to go to after signing in', () => {
  test.each(['/', '/wells', '/wells?q=larch&page=2', '/wells/FW-001/visit'])(
    'is %s when it is one of ours',
    (path) => {
      expect(localPath(path)).toBe(path)
    },
  )

  test.each([
    '',
    'wells',
    '//evil.example',
    '/\\evil.example',
    'https://evil.example',
    'javascript:alert(1)',
    '/\t/evil.example',
    '/a\nb',
  ])('is the front page when %j is asked for', (path) => {
    expect(localPath(path)).toBe('/')
  })
})

const formOf = (fields: Record<string, string>) => {
  const form = new FormData()
  for (const [name, value] of Object.entries(fields)) form.set(name, value)
  return form
}

describe('the first account', () => {
  test('takes a password of any characters exactly as typed, spaces at its ends too', () => {
    const password = '  größer als ∞ 🙂  '
    const parsed = parseForm(firstRunForm, formOf({ name: ' Ada ', email: ' Ada@Example.org ', password }), [
      'password',
    ])
    expect(parsed).toMatchObject({ ok: true, value: { name: 'Ada', email: 'ada@example.org', password } })
  })

  test('gives one sentence a field and brings back what was typed, never the password', () => {
    const parsed = parseForm(firstRunForm, formOf({ name: '', email: 'ada', password: 'short' }), [
      'password',
    ])
    expect(parsed).toEqual({
      ok: false,
      state: {
        typed: { name: '', email: 'ada' },
        errors: {
          name: 'Enter the name that stands beside the work in the logbook',
          email: 'Enter an email address like name@example.com',
          password: 'The password must be 12 characters or longer; a few words in a row do well',
        },
      },
    })
  })

  test.each([
    [11, false],
    [12, true],
    [128, true],
    [129, false],
  ])('of a password of %i characters is accepted: %s', (length, accepted) => {
    const parsed = passwordForm.safeParse({
      current: 'x',
      fresh: 'brook stone sand '.repeat(9).slice(0, length),
    })
    expect(parsed.success).toBe(accepted)
  })
})
