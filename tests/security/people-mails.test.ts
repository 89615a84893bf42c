import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { simpleParser } from 'mailparser'
import { expect, test } from 'vitest'
import { sendMail } from '@/lib/mail/mailer'
import { invitationMail, resetMail } from '@/lib/mail/people-mails'

const EVIL = 'Ada\r\nBcc: everybody@evil.example\r\n\r\nfalse words'
const OUTFIT = { name: 'Fernhollow\r\nX-Evil: yes', contact: '555-0100' }
const LINK = 'https://wells.example/reset?code=abc'

test.each([
  ['a reset', resetMail({ to: 'ada@good.example', name: EVIL }, LINK, 10, OUTFIT)],
  [
    'an invitation',
    invitationMail(
      'ada@good.example',
      { forName: EVIL, household: EVIL, link: LINK, untilDay: '2027-01-19' },
      OUTFIT,
    ),
  ],
])('%s: a name with line breaks adds no header and no recipient', async (_what, mail) => {
  const folder = mkdtempSync(join(tmpdir(), 'wellround-mails-'))
  try {
    const sent = await sendMail(mail, () => undefined, {
      kind: 'outbox',
      folder,
      from: 'Wells <wells@good.example>',
    })
    expect(sent.kind).toBe('sent')
    const [file = ''] = readdirSync(folder)
    const read = await simpleParser(readFileSync(join(folder, file)))
    expect([read.to].flat().map((to) => to?.text)).toEqual(['ada@good.example'])
    expect(read.bcc).toBeUndefined()
    expect(read.headers.has('x-evil')).toBe(false)
    expect(read.text).toContain(LINK)
    expect(read.text).toContain('Hello Ada Bcc: everybody@evil.example false words,')
  } finally {
    rmSync(folder, { recursive: true })
  }
})
