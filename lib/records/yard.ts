import type { Viewer } from '@/lib/access/viewer'
import { YARD_KEY, type YardSetting, yardSetting } from '@/lib/domain/place'
import type { Db } from './db'
import { getSetting, putSetting } from './settings'

/** The yard and the usual day of the outfit; without a yard where none was set. */
export function getYard(db: Db): YardSetting {
  return getSetting(db, YARD_KEY, yardSetting, yardSetting.parse({}))
}

/** Stores the yard. Rounds that are planned already keep what they were planned with. Throws as putSetting. */
export function putYard(db: Db, viewer: Viewer, yard: YardSetting, at: string): Promise<void> {
  return putSetting(db, viewer, YARD_KEY, yardSetting.parse(yard), at)
}
