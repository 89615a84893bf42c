import type { GeoJSONSource, Map as LibreMap, MapLayerMouseEvent } from 'maplibre-gl'
import type { MapPoint } from '@/lib/domain/place'
import type { FleetMapProps } from './fleet-map-props'
import { boundsOf, featuresOf, gridOf, lineOf, styleOf, yardOf } from './map-style'
import { pictureOf } from './map-symbols'

export type Picked = { id: string; label: string; status: string }

/** Draws the map into a box. Throws where the points cannot be had or the browser cannot draw. */
export async function openMap(
  box: HTMLElement,
  props: FleetMapProps,
  pick: (well: Picked) => void,
): Promise<{ wells: number; close: () => void }> {
  const [library, points] = await Promise.all([import('maplibre-gl'), pointsOf(props)])
  library.setWorkerUrl(WORKER)
  const line = props.line ?? []
  const yard = props.yard ? [props.yard] : []
  const { west, south, east, north } = boundsOf([...points, ...line, ...yard])
  const map = new library.Map({
    container: box,
    style: styleOf(
      featuresOf(points),
      { line: lineOf(line), yard: yardOf(yard) },
      props.tiles,
      props.source !== undefined,
    ),
    bounds: [west, south, east, north],
    fitBoundsOptions: { padding: PADDING },
    attributionControl: false,
    dragRotate: false,
    pitchWithRotate: false,
    maxZoom: 19,
    // A finger that scrolls the page must not be caught by the map; two fingers move it.
    cooperativeGestures: true,
  })
  map.touchZoomRotate.disableRotation()
  map.setMissingStyleImageResolver((name) => {
    const picture = pictureOf(name)
    if (picture) map.addImage(name, picture.data, { pixelRatio: picture.pixelRatio })
  })
  map.addControl(new library.NavigationControl({ showCompass: false }), 'top-right')
  map.addControl(
    new library.ScaleControl({ unit: props.units === 'metric' ? 'metric' : 'imperial' }),
    'bottom-left',
  )
  const canvas = map.getCanvas()
  canvas.setAttribute('aria-label', `${props.label}. Arrow keys move it, plus and minus change its scale.`)
  await drawn(map)
  const redraw = () => drawGrid(map)
  map.on('moveend', redraw)
  redraw()
  map.on('click', 'wells', (event) => picked(event, pick))
  map.on('click', 'labels', (event) => picked(event, pick))
  map.on('click', 'many', (event) => void closer(map, event))
  return { wells: points.length, close: () => map.remove() }
}

/** Room at the right for the label of the last well, at the foot for the scale bar, px. */
const PADDING = { top: 40, right: 104, bottom: 48, left: 48 }

/** A module of its own, with a name that never changes its content: the bundler copies it as it is. */
const WORKER = new URL('maplibre-gl/dist/maplibre-gl-worker.mjs', import.meta.url).href

async function pointsOf({ points, source }: FleetMapProps): Promise<readonly MapPoint[]> {
  if (source === undefined) return points ?? []
  const answer = await fetch(source, { cache: 'no-store' })
  if (!answer.ok) throw new Error(`the points of the map were answered with ${answer.status}`)
  return (await answer.json()) as MapPoint[]
}

/** Until wells stand on it. A worker or a context that fails is an error; a tile that does not come is none. */
function drawn(map: LibreMap): Promise<void> {
  return new Promise((done, fail) => {
    map.once('load', () => done())
    map.on('error', ({ error, ...event }) => {
      if ('sourceId' in event && event.sourceId === 'tiles') return
      if (!map.loaded()) fail(error)
    })
  })
}

function drawGrid(map: LibreMap): void {
  const bounds = map.getBounds()
  const grid = gridOf({
    west: bounds.getWest(),
    east: bounds.getEast(),
    south: bounds.getSouth(),
    north: bounds.getNorth(),
  })
  map.getSource<GeoJSONSource>('grid')?.setData(grid)
}

function picked(event: MapLayerMouseEvent, pick: (well: Picked) => void): void {
  const properties = event.features?.[0]?.properties
  if (properties)
    pick({ id: String(properties.i), label: String(properties.l), status: String(properties.s) })
}

/** A cluster opens by going closer. */
async function closer(map: LibreMap, event: MapLayerMouseEvent): Promise<void> {
  const feature = event.features?.[0]
  const source = map.getSource<GeoJSONSource>('wells')
  if (!feature || !source || feature.geometry.type !== 'Point') return
  const zoom = await source.getClusterExpansionZoom(Number(feature.properties.cluster_id))
  const [longitude = 0, latitude = 0] = feature.geometry.coordinates
  map.easeTo({ center: [longitude, latitude], zoom: zoom + 0.5 })
}
