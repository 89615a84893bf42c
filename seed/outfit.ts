import { OUTFIT } from '@/lib/access/viewer'
import type { Db } from '@/lib/records/db'
import { OUTFIT_KEY, putSetting } from '@/lib/records/settings'

/** How the invented outfit calls itself on sheets and notices. The number is one that no telephone has. */
export function nameDemoOutfit(db: Db, at: string): Promise<void> {
  return putSetting(db, OUTFIT, OUTFIT_KEY, { name: 'Fernhollow Wellwrights', contact: '555-0100' }, at)
}
