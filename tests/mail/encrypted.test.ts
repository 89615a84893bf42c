import { afterEach, describe, expect, test } from 'vitest'
import { type MailSettings, mailSettings, mustEncrypt } from '@/lib/mail/mail-settings'
import { sendMail } from '@/lib/mail/mailer'
import { type MailServer, mailServer } from '../setup/mail-server'

const FROM = 'Fernhollow Wellwrights <office@fernhollow.example>'
const MAIL = { to: 'ada@orchard.example', subject: 'A new password', text: 'A link.' }
const undo: (() => unknown)[] = []
afterEach(async () => {
  for (const step of undo.splice(0)) await step()
})
async function server(...options: Parameters<typeof mailServer>): Promise<MailServer> {
  const made = await mailServer(...options)
  undo.push(() => made.stop())
  return made
}
const through = (url: string, plain?: true): MailSettings => ({
  kind: 'smtp',
  url,
  from: FROM,
  ...(plain && { plain }),
})
const send = (settings: MailSettings) => sendMail(MAIL, () => undefined, settings)
/** The same server under an address that is not this machine's own name for itself. */
const asForeign = (url: string) => url.replace('127.0.0.1', '0.0.0.0')

describe('mail to another machine', () => {
  test('is not handed to a server that cannot encrypt, unless somebody said that it may be', async () => {
    const post = await server()
    expect(await send(through(asForeign(post.url)))).toMatchObject({ kind: 'failed' })
    expect(post.received).toHaveLength(0)
    expect(await send(through(asForeign(post.url), true))).toMatchObject({ kind: 'sent' })
    expect(post.received).toHaveLength(1)
  })

  test('is not handed to a server whose certificate nobody vouches for', async () => {
    // The server's own certificate, made for tests, is signed by itself.
    const post = await server({ secure: true })
    const outcome = await send(through(post.url.replace('smtp://', 'smtps://')))
    expect(outcome).toMatchObject({
      kind: 'failed',
      reason: expect.stringMatching(/certificate|self-signed/i),
    })
    expect(post.received).toHaveLength(0)
  })
})

test.each([
  ['smtp://mail.example:587', true],
  ['smtp://10.0.0.5', true],
  ['smtp://localhost.evil.example', true],
  ['smtps://mail.example', true],
  ['smtp://localhost:1025', false],
  ['smtp://127.0.0.1:25', false],
  ['smtp://[::1]:25', false],
])('%s must be encrypted: %s', (url, wanted) => {
  expect(mustEncrypt({ url })).toBe(wanted)
  expect(mustEncrypt({ url, plain: true })).toBe(false)
})

test('plain text is said by one word and no other', () => {
  const env = { WELLROUND_SMTP: 'smtp://mail.example', WELLROUND_MAIL_FROM: FROM }
  expect(mailSettings(env as unknown as NodeJS.ProcessEnv)).not.toHaveProperty('plain')
  const said = { ...env, WELLROUND_SMTP_PLAIN: 'yes' } as unknown as NodeJS.ProcessEnv
  expect(mailSettings(said)).toMatchObject({ plain: true })
  const wrong = { ...env, WELLROUND_SMTP_PLAIN: 'true' } as unknown as NodeJS.ProcessEnv
  expect(() => mailSettings(wrong)).toThrow('WELLROUND_SMTP_PLAIN')
})
