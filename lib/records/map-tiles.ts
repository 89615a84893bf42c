import { z } from 'zod'
import type { Viewer } from '@/lib/access/viewer'
import type { Db } from './db'
import { getSetting, putSetting } from './settings'
import { allowTiles } from './tile-origin'

/** Pictures of the ground from a server that the outfit has chosen: {z}, {x} and {y} stand in the address. */
const shape = z.object({ url: z.string(), attribution: z.string() }).nullable()
export type MapTiles = z.infer<typeof shape>

const KEY = 'map-tiles'

/** Null where no server was chosen: the map then shows the outfit's own wells alone. */
export function mapTiles(db: Db): MapTiles {
  return getSetting(db, KEY, shape, null)
}

/** Tells the content rules of this process which host was chosen; once, when the database is opened. */
export function announceTiles(db: Db): void {
  allowTiles(mapTiles(db)?.url ?? null)
}

/** Throws NotAllowed unless the viewer may edit settings. */
export async function putMapTiles(db: Db, viewer: Viewer, tiles: MapTiles, at: string): Promise<void> {
  await putSetting(db, viewer, KEY, tiles, at)
  allowTiles(tiles?.url ?? null)
}
