import type { Metadata } from 'next'
import Link from 'next/link'
import { FleetMap } from '@/app/ui/map/fleet-map'
import { MapGround } from '@/app/ui/map/map-ground'
import { MapKey } from '@/app/ui/map/map-key'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { mayFleet } from '@/lib/access/rules'
import { today } from '@/lib/clock'
import { MAP_WORDS } from '@/lib/domain/place'
import type { Params } from '@/lib/forms/list-filters'
import { readMapQuery } from '@/lib/forms/map-query'
import { paths } from '@/lib/paths'
import { mapTiles } from '@/lib/records/map-tiles'
import { mapAreas, mapWells } from '@/lib/records/map-wells'
import { getDb } from '@/lib/records/open'
import { getYard } from '@/lib/records/yard'
import { MapFilterForm } from './map-filter-form'
import { MapList } from './map-list'

export const metadata: Metadata = { title: 'Map' }

/** Wells on one page of the list. */
const ROWS = 100

/** Where the wells are and how each stands: as a map, and below it as a list of the same content. */
export default async function MapPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  const db = await getDb()
  const { filter, texts, page, errors } = readMapQuery(await searchParams)
  const wells = mapWells(db, viewer, today(), filter)
  const placed = wells.filter((well) => well.latitude !== null && well.longitude !== null)
  const tiles = mapTiles(db)
  const { yard } = getYard(db)
  const pages = Math.max(1, Math.ceil(wells.length / ROWS))
  const at = Math.min(page, pages)
  const status = filter.status ? `, ${MAP_WORDS[filter.status]}` : ''
  return (
    <>
      <PageHead
        title="Map"
        lead={`${wells.length} ${wells.length === 1 ? 'well' : 'wells'}${filter.area ? ` in ${filter.area}` : ''}${status}${placed.length < wells.length ? `; ${wells.length - placed.length} without a coordinate stand in the list alone` : ''}`}
      >
        {texts.wells.length > 0 ? (
          <Link className="button button-quiet" href={paths.map()} prefetch={false}>
            All wells
          </Link>
        ) : null}
        {mayFleet(viewer, 'setting.edit') ? (
          <Link className="button button-quiet" href={paths.mapSettings()} prefetch={false}>
            Ground of the map
          </Link>
        ) : null}
      </PageHead>
      <MapFilterForm texts={texts} errors={errors} areas={mapAreas(db, viewer)} />
      {placed.length > 0 ? (
        <>
          <FleetMap
            label={`Map of ${placed.length} wells`}
            source={paths.mapData({ area: texts.area, status: texts.status, wells: texts.wells })}
            yard={yard}
            tiles={tiles}
            units={viewer.units}
          />
          <MapKey />
          <MapGround tiles={tiles} yard={yard !== null} />
        </>
      ) : null}
      <MapList
        wells={wells.slice((at - 1) * ROWS, at * ROWS)}
        first={(at - 1) * ROWS + 1}
        units={viewer.units}
        byDistance={filter.from !== undefined}
      />
      {pages > 1 ? (
        <nav className="row no-print" aria-label="Pages of the list">
          {at > 1 ? (
            <Link
              className="button button-quiet"
              href={paths.map({ ...texts, page: String(at - 1) })}
              prefetch={false}
            >
              Earlier wells
            </Link>
          ) : null}
          <span>
            Page {at} of {pages}
          </span>
          {at < pages ? (
            <Link
              className="button button-quiet"
              href={paths.map({ ...texts, page: String(at + 1) })}
              prefetch={false}
            >
              More wells
            </Link>
          ) : null}
        </nav>
      ) : null}
    </>
  )
}
