import type { AddressInfo } from 'node:net'
import { type ParsedMail, simpleParser } from 'mailparser'
import { SMTPServer, type SMTPServerOptions } from 'smtp-server'

export type MailServer = { url: string; received: ParsedMail[]; raw: string[]; stop(): Promise<void> }

/** A real mail server on a free port of this machine, which keeps what it is sent. `options` let it refuse. */
export async function mailServer(
  options: SMTPServerOptions = {},
  /** Called with each whole mail before it is acknowledged. */
  onWhole: () => Promise<void> = async () => undefined,
): Promise<MailServer> {
  const received: ParsedMail[] = []
  const raw: string[] = []
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ['STARTTLS'],
    onData(stream, _session, done) {
      const chunks: Buffer[] = []
      stream.on('data', (chunk: Buffer) => chunks.push(chunk))
      stream.on('end', async () => {
        const whole = Buffer.concat(chunks)
        raw.push(whole.toString('utf8'))
        received.push(await simpleParser(whole))
        await onWhole()
        done()
      })
    },
    ...options,
  })
  // A client that dies in the middle is what some tests are about.
  server.on('error', () => undefined)
  await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready))
  const { port } = server.server.address() as AddressInfo
  return {
    url: `smtp://127.0.0.1:${port}`,
    received,
    raw,
    stop: () => new Promise((done) => server.close(() => done())),
  }
}
