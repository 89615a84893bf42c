import type { LatLon, MapPoint } from '@/lib/domain/place'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { Tiles } from './map-style'

export type FleetMapProps = {
  /** What the map shows, said to those who do not see it: a list equal in content must stand on the page. */
  label: string
  /** The wells themselves, for a handful such as a round ... */
  points?: readonly MapPoint[]
  /** ... or the address of them, for a fleet: paths.mapData(). Only then wells are gathered into clusters. */
  source?: string
  /** The way of a round, yard to yard. */
  line?: readonly LatLon[]
  /** Where a round starts and ends. */
  yard?: LatLon | null
  /** From lib/records/map-tiles; null for plain ground. */
  tiles: Tiles | null
  units: UnitSystem
}
