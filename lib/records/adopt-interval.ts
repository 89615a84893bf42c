import type { Viewer } from '@/lib/access/viewer'
import { intervalLimits } from '@/lib/domain/logbook/wear-words'
import type { Db } from './db'
import { type DutyWrite, updateDuty, visibleDuty } from './duties'
import { dutyFieldsOf } from './fleet-readers'
import { wellWear } from './well-wear'

/**
 * Sets the limits of a well's cartridge duty to the interval that its own cartridges suggest, as reckoned now; the
 * measured condition stays as it is. `version`: the duty as the page showed it.
 * Answer  'no-such-duty' where the well suggests no interval (any more).
 * Throws  NotAllowed unless the viewer may edit duties.
 */
export async function adoptInterval(
  db: Db,
  viewer: Viewer,
  wellId: string,
  version: number,
  at: string,
): Promise<DutyWrite> {
  const cartridge = wellWear(db, viewer, wellId)?.wear.cartridge
  const row = cartridge?.kind === 'known' ? visibleDuty(db, viewer, cartridge.dutyId) : null
  if (cartridge?.kind !== 'known' || cartridge.interval.kind !== 'interval' || !row) {
    return { kind: 'no-such-duty' }
  }
  const { everyM3: _, ...typed } = dutyFieldsOf(row).typed
  const limits = intervalLimits(cartridge.interval)
  const fields = {
    ...dutyFieldsOf(row),
    everyMonths: limits.everyMonths,
    everyM3: limits.everyM3 ?? row.everyM3,
    typed,
  }
  return updateDuty(db, viewer, row.id, version, fields, false, at)
}
