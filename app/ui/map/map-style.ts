import type { StyleSpecification } from 'maplibre-gl'
import type { LatLon, MapPoint } from '@/lib/domain/place'
import { rankOf } from './map-symbols'

export type Tiles = { url: string; attribution: string }

type Features = GeoJSON.FeatureCollection

/** Zoom from which wells stand alone, and from which they carry their labels. */
const ALONE_ZOOM = 13
const LABEL_ZOOM = 11

/** Wells as points of a map; `i` and `l` are id and label. */
export function featuresOf(points: readonly MapPoint[]): Features {
  return {
    type: 'FeatureCollection',
    features: points.map(({ id, label, status, latitude, longitude, order }) => ({
      type: 'Feature',
      geometry: { type: 'Point', coordinates: [longitude, latitude] },
      properties: {
        i: id,
        l: order === undefined ? label : `${order}. ${label}`,
        s: status,
        r: rankOf(status),
      },
    })),
  }
}

/** A way as one line; nothing for fewer than two places. */
export function lineOf(line: readonly LatLon[]): Features {
  const coordinates = line.map(({ latitude, longitude }) => [longitude, latitude])
  return {
    type: 'FeatureCollection',
    features:
      coordinates.length < 2
        ? []
        : [{ type: 'Feature', geometry: { type: 'LineString', coordinates }, properties: {} }],
  }
}

/** The yard as a point, or nothing. */
export const yardOf = (places: readonly LatLon[]): Features => ({
  type: 'FeatureCollection',
  features: places.map(({ latitude, longitude }) => ({
    type: 'Feature',
    geometry: { type: 'Point', coordinates: [longitude, latitude] },
    properties: {},
  })),
})

const STEPS = [30, 10, 5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001]
const LINES_MAX = 60

export type Bounds = { west: number; east: number; south: number; north: number }

/** Lines of equal latitude and longitude at a round step, so that bare ground still shows scale and north. */
export function gridOf({ west, east, south, north }: Bounds): Features {
  const span = Math.max(east - west, north - south)
  const step = STEPS.find((one) => span / one >= 4) ?? 0.001
  const lines: GeoJSON.Position[][] = []
  for (let lon = Math.ceil(west / step); lon * step <= east && lines.length < LINES_MAX; lon += 1)
    lines.push([
      [lon * step, Math.max(-85, south)],
      [lon * step, Math.min(85, north)],
    ])
  for (let lat = Math.ceil(south / step); lat * step <= north && lines.length < 2 * LINES_MAX; lat += 1)
    lines.push([
      [west, lat * step],
      [east, lat * step],
    ])
  return {
    type: 'FeatureCollection',
    features: lines.map((coordinates) => ({
      type: 'Feature',
      geometry: { type: 'LineString', coordinates },
      properties: {},
    })),
  }
}

/** Where the wells lie, with some room around them; the whole world where there are none. */
export function boundsOf(points: readonly LatLon[]): Bounds {
  if (points.length === 0) return { west: -170, east: 170, south: -60, north: 75 }
  const fold = (pick: (p: LatLon) => number, of: (a: number, b: number) => number) =>
    points.reduce((found, p) => of(found, pick(p)), pick(points[0] as LatLon))
  const room = 0.002
  return {
    west: fold((p) => p.longitude, Math.min) - room,
    east: fold((p) => p.longitude, Math.max) + room,
    south: fold((p) => p.latitude, Math.min) - room,
    north: fold((p) => p.latitude, Math.max) + room,
  }
}

/** The whole map: plain ground, tiles where there are some, grid, way, clusters, wells, labels. No letters are fetched. */
export function styleOf(
  data: Features,
  round: { line: Features; yard: Features },
  tiles: Tiles | null,
  cluster: boolean,
): StyleSpecification {
  const paint = (token: string) => getComputedStyle(document.documentElement).getPropertyValue(token).trim()
  return {
    version: 8,
    sources: {
      grid: { type: 'geojson', data: { type: 'FeatureCollection', features: [] } },
      line: { type: 'geojson', data: round.line },
      yard: { type: 'geojson', data: round.yard },
      wells: {
        type: 'geojson',
        data,
        ...(cluster
          ? {
              cluster: true,
              clusterRadius: 48,
              clusterMaxZoom: ALONE_ZOOM,
              clusterProperties: { r: ['max', ['get', 'r']] },
            }
          : {}),
      },
      ...(tiles ? { tiles: { type: 'raster', tiles: [tiles.url], tileSize: 256, maxzoom: 18 } } : {}),
    },
    layers: [
      { id: 'ground', type: 'background', paint: { 'background-color': paint('--sunk') } },
      ...(tiles ? [{ id: 'tiles', type: 'raster' as const, source: 'tiles' }] : []),
      {
        id: 'grid',
        type: 'line',
        source: 'grid',
        paint: { 'line-color': paint('--line'), 'line-width': 1 },
      },
      {
        id: 'line',
        type: 'line',
        source: 'line',
        paint: { 'line-color': paint('--status-note'), 'line-width': 3, 'line-dasharray': [2, 1] },
      },
      {
        id: 'labels',
        type: 'symbol',
        source: 'wells',
        ...(cluster ? { minzoom: LABEL_ZOOM } : {}),
        filter: ['!', ['has', 'point_count']],
        layout: {
          'icon-image': ['concat', 'label:', ['get', 'l']],
          'icon-anchor': 'left',
          'icon-offset': [14, 0],
          'icon-padding': 1,
          // Of a fleet the labels that have room are shown; of a round every stop has its number.
          'icon-allow-overlap': !cluster,
        },
      },
      {
        id: 'wells',
        type: 'symbol',
        source: 'wells',
        filter: ['!', ['has', 'point_count']],
        layout: {
          'icon-image': ['concat', 'well:', ['get', 's']],
          'icon-allow-overlap': true,
          // Symbols are placed before labels: one that claimed its ground would push away its own label.
          'icon-ignore-placement': true,
        },
      },
      {
        id: 'many',
        type: 'symbol',
        source: 'wells',
        filter: ['has', 'point_count'],
        layout: {
          'icon-image': ['concat', 'many:', ['get', 'r'], ':', ['get', 'point_count']],
          'icon-allow-overlap': true,
        },
      },
      // Last: no cluster hides where rounds begin.
      {
        id: 'yard',
        type: 'symbol',
        source: 'yard',
        layout: { 'icon-image': 'label:Yard', 'icon-allow-overlap': true },
      },
    ],
  }
}
