import { describe, expect, test } from 'vitest'
import { firstRunForm, joinForm, passwordForm, personForm, resetForm } from '@/lib/forms/accounts'
import { easilyGuessed } from '@/lib/forms/password-rules'

const REFUSED = [
  'Password1234',
  'passwordpassword',
  'aaaaaaaaaaaa',
  'abcabcabcabc',
  '123456789012',
  'abcdefghijkl',
  'lkjhgfdsapoi',
  'qwertyuiopas',
  'Wellround2026!',
  'wellwaterpump1',
  'installer-owner-1',
]
const TAKEN = [
  'correct horse battery staple',
  'gravel sock and twine',
  'wellspring of the heath',
  '😀😁😂🤣😃😄😅😆😉😊😋😎😍😘🥰😗😙😚🙂🤗',
  `${'a'.repeat(3)} stone in every shoe`,
  'Xk7-pQ2z-9vLm',
]

describe('a password', () => {
  test.each(REFUSED)('that is among the first guessed is told so: %s', (password) => {
    expect(easilyGuessed(password)).toBe(true)
  })
  test.each(TAKEN)('of any composition is taken: %s', (password) => {
    expect(easilyGuessed(password)).toBe(false)
  })
})

describe('is refused where it is easily guessed, too short or too long, at', () => {
  const rest = { name: 'Ada', email: 'a@b.example', role: 'technician', code: 'x', current: 'x', id: 'x' }
  const forms = { firstRunForm, joinForm, personForm, resetForm, passwordForm }
  test.each(Object.entries(forms))('%s', (_name, form) => {
    const accepts = (password: string) => form.safeParse({ ...rest, password, fresh: password }).success
    expect(accepts('gravel sock and twine')).toBe(true)
    expect(accepts(`${'x7'.repeat(60)}gravel q`)).toBe(true)
    for (const password of [...REFUSED, 'short one', 'x'.repeat(129)])
      expect(accepts(password), password).toBe(false)
  })
})
