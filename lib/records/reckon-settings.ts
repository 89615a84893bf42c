import type Database from 'better-sqlite3'
import type { Viewer } from '@/lib/access/viewer'
import {
  RECKON_KEY,
  type ReckonChoices,
  type ReckonSettings,
  reckonChoices,
  reckonSettingsOf,
} from '@/lib/domain/logbook/settings'
import type { Db } from './db'
import { putSetting } from './settings'
import { prepared } from './statements'

/** The settings of the reckoning, and their version (0 where nothing was chosen), as standings are stamped with it. */
export type ReckonState = { choices: ReckonChoices; settings: ReckonSettings; version: number }

/** The last text read and what it says: a rebuild asks once a well, and the answer hardly ever changes. */
let last: { text: string; choices: ReckonChoices; settings: ReckonSettings } | null = null

/** What is in force now. Throws where the stored text has another shape. */
export function reckonSettings(sqlite: Database.Database): ReckonState {
  const row = prepared<{ value: string; version: number }>(
    sqlite,
    'SELECT "value","version" FROM "Setting" WHERE "key" = ?',
  ).get(RECKON_KEY)
  const text = row?.value ?? '{}'
  if (last?.text !== text) {
    const choices = reckonChoices.parse(JSON.parse(text))
    last = { text, choices, settings: reckonSettingsOf(choices) }
  }
  return { choices: last.choices, settings: last.settings, version: row?.version ?? 0 }
}

/**
 * Stores what the outfit chose. Every standing is stale after it: the caller sets `rebuild(db, 'stale')` going.
 * Throws NotAllowed unless the viewer may.
 */
export function putReckonChoices(db: Db, viewer: Viewer, choices: ReckonChoices, at: string): Promise<void> {
  return putSetting(db, viewer, RECKON_KEY, reckonChoices.parse(choices), at)
}
