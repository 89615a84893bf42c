import { createHash, randomUUID } from 'node:crypto'
import { Readable } from 'node:stream'
import { createTransport } from 'nodemailer'
import MailComposer from 'nodemailer/lib/mail-composer'
import type { MailOutcome } from './mail-outcome'
import { type MailSettings, mailSettings, mustEncrypt } from './mail-settings'
import { putInOutbox } from './outbox'

/** One mail to one person. `text` is always there: a mail that only a picture program can read reaches nobody. */
export type Mail = {
  to: string
  subject: string
  text: string
  html?: string
  headers?: Readonly<Record<string, string>>
  /** What makes two sendings the same mail: they get the same Message-ID. Without it every sending is a new mail. */
  key?: string
  icsAttachment?: { name: string; content: string }
}

/** Longest silence of a mail server before it counts as not answering. */
const PATIENCE_MS = 20_000

/**
 * Sends a mail through the server of WELLROUND_SMTP, or lays it as an .eml file into the outbox folder where none is set.
 * Never throws for what a server or an address does: that is an outcome.
 *
 * `beforeHandover` is called once the server has all but the last line. Until that line comes a server keeps nothing
 * (RFC 5321, section 4.1.1.4), so that a process that dies before the call has sent nothing.
 */
export async function sendMail(
  mail: Mail,
  beforeHandover: () => void | Promise<void> = () => undefined,
  settings: MailSettings = mailSettings(),
): Promise<MailOutcome> {
  const messageId = messageIdOf(mail, settings)
  const raw = await compose(mail, messageId, settings)
  if (settings.kind === 'outbox') {
    await beforeHandover()
    return putInOutbox(settings.folder, messageId, raw)
  }
  return throughServer(settings, mail.to, raw, messageId, beforeHandover)
}

/** The same key and address give the same Message-ID on every machine and after every restart. */
function messageIdOf(mail: Mail, { from }: MailSettings): string {
  const local =
    mail.key === undefined
      ? randomUUID()
      : createHash('sha256').update(`${mail.to.toLowerCase()}\n${mail.key}`).digest('hex').slice(0, 32)
  return `<${local}@${domainOf(from)}>`
}

function domainOf(from: string): string {
  return /@([A-Za-z0-9.-]+)/.exec(from)?.[1] ?? 'wellround.invalid'
}

function compose(mail: Mail, messageId: string, { from }: MailSettings): Promise<Buffer> {
  const { to, subject, text, html, headers, icsAttachment } = mail
  const composer = new MailComposer({
    from,
    to: { name: '', address: to },
    subject,
    text,
    ...(html === undefined ? {} : { html }),
    messageId,
    // Answers of holiday programs are of no use to a program (RFC 3834).
    headers: { 'Auto-Submitted': 'auto-generated', ...headers },
    ...(icsAttachment
      ? {
          attachments: [
            {
              filename: icsAttachment.name,
              content: icsAttachment.content,
              contentType: 'text/calendar; charset=utf-8',
            },
          ],
        }
      : {}),
    // What a mail says is text: it must never read a file or an address of the network.
    disableFileAccess: true,
    disableUrlAccess: true,
  })
  return composer.compile().build()
}

async function throughServer(
  settings: Extract<MailSettings, { kind: 'smtp' }>,
  to: string,
  raw: Buffer,
  messageId: string,
  beforeHandover: () => void | Promise<void>,
): Promise<MailOutcome> {
  const { url, from } = settings
  const transport = createTransport({
    url,
    // A server that cannot encrypt gets neither the password nor the mail.
    requireTLS: mustEncrypt(settings),
    connectionTimeout: PATIENCE_MS,
    greetingTimeout: PATIENCE_MS,
    socketTimeout: PATIENCE_MS,
  })
  let handedOver = false
  async function* body() {
    yield raw
    await beforeHandover()
    handedOver = true
  }
  try {
    await transport.sendMail({ envelope: { from: addressOf(from), to }, raw: Readable.from(body()) })
    return { kind: 'sent', messageId, where: 'smtp' }
  } catch (error) {
    return outcomeOf(error, handedOver)
  } finally {
    transport.close()
  }
}

function addressOf(from: string): string {
  return /<([^<>]+)>/.exec(from)?.[1] ?? from
}

/** What a failure means: 4xx and no connection may mend themselves, 5xx does not (RFC 5321, section 4.2.1). */
function outcomeOf(error: unknown, handedOver: boolean): MailOutcome {
  if (!(error instanceof Error)) throw error
  const code = 'responseCode' in error && typeof error.responseCode === 'number' ? error.responseCode : null
  const reason = withoutPasswords(error.message)
  if (code !== null) return { kind: 'failed', again: code < 500, reason }
  return handedOver ? { kind: 'unsure', reason } : { kind: 'failed', again: true, reason }
}

/** A message may repeat the address of the server, which may hold a password. */
const withoutPasswords = (message: string) => message.replace(/\/\/[^@\s]*@/g, '//').slice(0, 300)
