import { describe, expect, test } from 'vitest'
import {
  firstRunForm,
  joinForm,
  newPasswordForm,
  passwordForm,
  personForm,
  resetForm,
} from '@/lib/forms/accounts'
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

/**
 * Of the list of leaked passwords that is looked up (@zxcvbn-ts/language-common 4.1.3, MIT): a hundred that are long enough, as
 * they stand there.
 */
const LEAKED =
  `123qweasdzxc 1qaz2wsx3edc q1w2e3r4t5y6 1q2w3e4r5t6y mailcreated5240 qazwsxedcrfv 123456qwerty qwerty123456 leavemealone
  gfhjkmgfhjkm qazwsxedc123 ghjcnjgfhjkm zxcasdqwe123 sonyericsson 123456789qwe 1qazxsw23edc qwerasdfzxcv qweasdzxc123
  flvbybcnhfnjh 112233445566 ghbdtnrfrltkf websolutions finalfantasy 1qaz2wsx3edc4rfv chickenwing101 unbelievable administrator
  justinbieber contortionist 123qwe123qwe newproject2004 needforspeed businessbabe maurolarastefy supernatural professional
  domainlock2005 scandinavian momsanaladventure hd764nw5d7e1vb1 qazwsxedcrfvtgb counterstrike zaq1xsw2cde3 123456789abc
  intelligence admin18533362 123456789qwerty qazxswedcvfr qwertyasdfgh whosyourdaddy 123456789qaz password1234 chesterfield
  lost4815162342 vanyarespekt qwerty123456789 iseedeadpeople transformers devilmaycry4 combat123654 qwertyytrewq jamesbond007
  4815162342lost asdfghjkl123 1234qwerasdf 123qwe456rty qwertyuiop123 international saun24865709 q1w2e3r4t5y6u7 1qa2ws3ed4rf
  playstation3 cosmopolitan q1w2e3r4t5y6u7i8 andrewjackie 12qw34er56ty christopher1 networkingpe philadelphia peanutbutter
  ingodwetrust minecraft123 digitalprodu qawsedrftgyh abc123456789 auckland2010 residentevil massimiliano temppassword
  punksnotdead nightcrawler playstation2 ticketmaster stratocaster 1a2s3d4f5g6h passwordpassword sanfrancisco qwaszxerdfcv
  greenlantern morganstanley construction cheeseburger`.split(/\s+/)

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

  test.each(Object.entries({ ...forms, newPasswordForm }))(
    '%s; of a list of leaked ones is refused, whichever form asks, in capitals and made longer too',
    (_name, form) => {
      expect(LEAKED.length).toBeGreaterThanOrEqual(100)
      const accepts = (password: string) => form.safeParse({ ...rest, password, fresh: password }).success
      for (const password of LEAKED)
        for (const made of [password, password.toUpperCase(), `${password}!`, `2026${password}`])
          expect(accepts(made), made).toBe(false)
      for (const short of ['sunshine', 'princess', 'liverpool', 'dragon'])
        for (const made of [`${short}123456`, `!!2026${short}`, `${short}monkey99`, `${short}${short}`])
          expect(accepts(made), made).toBe(false)
    },
  )
})
