import { getDb } from './open'
import { noteSecurity, type SecurityLine } from './security-log'

/**
 * Notes what nothing caught, where it says that somebody tried what is not theirs: what a data function refused, and calls of an
 * action whose words could not be read. Who asked is not known here. A fault of our own is not for this log.
 */
export async function noteUncaught(error: unknown, routeType: string): Promise<void> {
  const line = lineFor(error, routeType)
  if (line) noteSecurity(await getDb(), line)
}

/** The line for an error; null where it says nothing of the kind. */
export function lineFor(error: unknown, routeType: string): SecurityLine | null {
  if (!(error instanceof Error)) return null
  if (error.name === 'NotAllowed') return { what: 'denied', by: null, about: error.message }
  if (routeType !== 'action') return null
  if ('statusCode' in error && error.statusCode === 413)
    return { what: 'body-refused', by: null, about: 'action' }
  // The framework reads the words of a call before any code of ours runs: then no line of the stack is of the build.
  return /[\\/]\.next[\\/]server[\\/]/.test(error.stack ?? '')
    ? null
    : { what: 'call-refused', by: null, about: 'action' }
}
