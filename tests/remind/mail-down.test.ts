import { expect, test } from 'vitest'
import { sendMail } from '@/lib/mail/mailer'
import { newId } from '@/lib/records/ids'
import { mailingList, sendAgain } from '@/lib/records/mailings'
import { record } from '@/lib/records/record'
import { makeMailReset } from '@/lib/records/resets'
import { sendReminders } from '@/lib/remind/send'
import { freshDb } from '../setup/fresh-db'
import { mailServer } from '../setup/mail-server'
import { installer, technician } from '../setup/viewers'
import { person, wellDue } from './outfit'

const FROM = 'office@fernhollow.example'
const TODAY = '2026-11-10'
const AT = `${TODAY}T07:00:00.000Z`

test('while the mail server is gone visits are saved and every other part goes on; the mail goes out when it is back', async () => {
  const db = await freshDb()
  const { ownerId, wellId } = await wellDue(db, 'A', 'Finch', '2026-11-15')
  const userId = await person(db, 'owner', ownerId)
  const gone = { kind: 'smtp', url: 'smtp://127.0.0.1:9', from: FROM } as const
  const sending = sendReminders(db, { now: () => AT, today: TODAY, claim: true }, gone)
  const draft = {
    id: newId(),
    wellId,
    visitId: newId(),
    occurredOn: TODAY,
    occurredTime: null,
    byName: 'Joss',
    supersedes: null,
    withdraws: null,
    payload: { kind: 'note', text: 'gate mended' },
  }
  expect((await record(db, technician, [draft], AT, TODAY)).kind).toBe('stored')
  await sending
  const { email } = await db.prisma.user.findUniqueOrThrow({ where: { id: userId } })
  const reset = await makeMailReset(db, email, AT)
  expect(reset?.code).toMatch(/^[\w-]{43}$/)
  expect(await sendMail({ to: email, subject: 'a', text: 'b' }, () => undefined, gone)).toMatchObject({
    kind: 'failed',
    again: true,
  })
  const [waiting] = mailingList(db, installer, null, 9).rows
  expect(waiting).toMatchObject({ tries: 1 })
  const post = await mailServer()
  try {
    await sendAgain(db, installer, waiting?.id ?? '', AT)
    await sendReminders(db, { now: () => AT, today: TODAY, claim: true }, { ...gone, url: post.url })
    expect(post.received).toHaveLength(1)
  } finally {
    await post.stop()
  }
})
