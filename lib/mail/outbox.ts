import { createHash } from 'node:crypto'
import { mkdir, open, rename } from 'node:fs/promises'
import { join } from 'node:path'
import type { MailOutcome } from './mail-outcome'

/**
 * Lays a mail into a folder, one .eml file a mail (RFC 5322), readable by the folder's owner only. The same mail laid in
 * twice is one file: its name is made from its Message-ID. A file is there whole or not at all.
 */
export async function putInOutbox(folder: string, messageId: string, raw: Buffer): Promise<MailOutcome> {
  const name = createHash('sha256').update(messageId).digest('hex').slice(0, 32)
  const file = join(folder, `${name}.eml`)
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 })
    const handle = await open(`${file}.part`, 'w', 0o600)
    try {
      await handle.writeFile(raw)
      await handle.sync()
    } finally {
      await handle.close()
    }
    await rename(`${file}.part`, file)
    return { kind: 'sent', messageId, where: 'outbox' }
  } catch (error) {
    if (!(error instanceof Error && 'code' in error)) throw error
    return { kind: 'failed', again: true, reason: `The outbox folder cannot be written (${error.code})` }
  }
}
