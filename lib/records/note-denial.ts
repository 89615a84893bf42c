import { getDb } from './open'
import { noteSecurity } from './security-log'

/** Notes what was refused where no page stood between: `said` names the action. Who asked is not known here. */
export async function noteDenial(said: string): Promise<void> {
  noteSecurity(await getDb(), { what: 'denied', by: null, about: said })
}
