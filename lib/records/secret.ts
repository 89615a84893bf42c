import { randomBytes } from 'node:crypto'
import { open, readFile } from 'node:fs/promises'
import { join } from 'node:path'

const BYTES = 32

/**
 * The secret that signs session cookies: BETTER_AUTH_SECRET where set, else the file `secret` in the data
 * folder, made on first use and readable by its owner only. Losing it signs everybody out, no more.
 */
export async function authSecret(folder: string): Promise<string> {
  const given = process.env.BETTER_AUTH_SECRET
  if (given) {
    if (given.length < BYTES)
      throw new Error(`BETTER_AUTH_SECRET is shorter than ${BYTES} characters. Take it out, and one is made.`)
    return given
  }
  const file = join(folder, 'secret')
  try {
    // 'wx' fails where the file exists, so that two starts at once end with one secret.
    const handle = await open(file, 'wx', 0o600)
    try {
      await handle.writeFile(randomBytes(BYTES).toString('base64url'))
      await handle.sync()
    } finally {
      await handle.close()
    }
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) throw error
  }
  const secret = (await readFile(file, 'utf8')).trim()
  if (secret.length < BYTES)
    throw new Error(`${file} is too short to be the sign-in secret. Remove it and start again.`)
  return secret
}
