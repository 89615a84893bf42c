import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { paths } from '@/lib/paths'
import { mapTiles } from '@/lib/records/map-tiles'
import { getDb } from '@/lib/records/open'
import { TilesForm } from './tiles-form'

export const metadata: Metadata = { title: 'Ground of the map' }

/** From where the map takes pictures of the ground, if from anywhere. */
export default async function MapSettingsPage() {
  const viewer = await deskViewer()
  await demand(viewer, 'setting.edit')
  const tiles = mapTiles(await getDb())
  return (
    <>
      <PageHead
        title="Ground of the map"
        lead="The map works without any: your wells, a grid and a scale bar. With a map server of your choice it shows rivers, roads and names beneath them."
      >
        <Link className="button button-quiet" href={paths.map()} prefetch={false}>
          Map
        </Link>
      </PageHead>
      <TilesForm url={tiles?.url ?? ''} attribution={tiles?.attribution ?? ''} />
      <p className="text muted">
        The server that you name learns which parts of the country your people look at, and when. It is the
        only host that pages may load pictures from. Read its terms first: many ask for a key and for words
        beside the map.
      </p>
    </>
  )
}
