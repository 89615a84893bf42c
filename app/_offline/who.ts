import { z } from 'zod'
import { forgetPerson, type Person, person, setPerson } from './taken'

const meSchema = z.object({ user: z.string(), name: z.string() })

/** A signal that takes longer than this to say who is signed in counts as none. */
const PATIENCE_MS = 4000

/**
 * Whose things a page shown by the phone may show. The server is asked first, where there is signal: somebody else may have
 * signed in, or everybody out, since the last page. Without signal it is whoever was signed in last. Null for nobody.
 */
export async function whoIsHere(): Promise<Person | null> {
  try {
    const answer = await fetch('/api/v1/me', { cache: 'no-store', signal: AbortSignal.timeout(PATIENCE_MS) })
    if (answer.status === 404) {
      await forgetPerson()
      return null
    }
    const me = meSchema.safeParse(answer.ok ? await answer.json() : null)
    if (me.success) await setPerson({ id: me.data.user, name: me.data.name })
  } catch {
    // No signal: the phone's own memory serves.
  }
  return person()
}
