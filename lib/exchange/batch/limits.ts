import { BATCH_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import type { WholeRefusal } from './shape'

/** The most items of a batch. */
export const ITEMS_MAX = 50
/** A visit form is three levels deep, a lab sheet in an entry seven. */
const DEPTH_MAX = 16

/**
 * The bytes of a request's body; null where there are more than `max`. Stops reading at the limit, whatever length the
 * request claims.
 */
export async function readLimited(request: Request, max: number): Promise<Uint8Array | null> {
  if (Number(request.headers.get('content-length') ?? 0) > max) return null
  if (!request.body) return new Uint8Array()
  const reader = request.body.getReader()
  const pieces: Uint8Array[] = []
  let size = 0
  for (;;) {
    const { done, value } = await reader.read()
    if (done) break
    size += value.length
    if (size > max) {
      await reader.cancel()
      return null
    }
    pieces.push(value)
  }
  return Buffer.concat(pieces)
}

/** Refuses a text before it is parsed: too long, or nested deeper than any honest batch. Null where it may be parsed. */
export function tooMuch(text: string): WholeRefusal | null {
  if (text.length > BATCH_BYTES_MAX) return TOO_LARGE
  return depthOf(text) > DEPTH_MAX
    ? { status: 413, wrong: 'The batch is nested too deeply', todo: 'Send the records of this program only' }
    : null
}

export const TOO_LARGE: WholeRefusal = {
  status: 413,
  wrong: `The batch is larger than ${sayBytes(BATCH_BYTES_MAX)}`,
  todo: 'Send fewer records at a time',
}

/** The deepest nesting of brackets outside of quoted text. One pass, no memory. */
function depthOf(text: string): number {
  let depth = 0
  let deepest = 0
  let quoted = false
  for (let i = 0; i < text.length; i += 1) {
    const c = text[i]
    if (quoted) {
      if (c === '\\') i += 1
      else if (c === '"') quoted = false
    } else if (c === '"') quoted = true
    else if (c === '[' || c === '{') {
      depth += 1
      if (depth > deepest) deepest = depth
    } else if (c === ']' || c === '}') depth -= 1
  }
  return deepest
}
