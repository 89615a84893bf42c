import { FleetMap } from '@/app/ui/map/fleet-map'
import { MapGround } from '@/app/ui/map/map-ground'
import { MapKey } from '@/app/ui/map/map-key'
import type { MapPoint } from '@/lib/domain/place'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { MapTiles } from '@/lib/records/map-tiles'
import type { RoundHead, RoundStop } from '@/lib/records/rounds'

type Props = {
  round: RoundHead
  stops: readonly RoundStop[]
  wells: readonly { id: string; status: MapPoint['status'] }[]
  tiles: MapTiles
  units: UnitSystem
}

/** The way of the round; the list of stops above it says the same in words. */
export function RoundMap({ round, stops, wells, tiles, units }: Props) {
  const points = stops.flatMap((stop): MapPoint[] => {
    const status = wells.find((well) => well.id === stop.wellId)?.status
    return stop.at && status
      ? [{ id: stop.wellId, label: stop.label, status, ...stop.at, order: stop.position }]
      : []
  })
  if (points.length === 0) return null
  const yard = round.yard ? [round.yard] : []
  return (
    <section aria-labelledby="way" className="stack-tight no-print">
      <h2 id="way">The way</h2>
      <FleetMap
        label={`Map of the ${points.length} stops of this round, in the order of the list above`}
        points={points}
        line={[...yard, ...points, ...yard]}
        yard={round.yard}
        tiles={tiles}
        units={units}
      />
      <MapKey />
      <MapGround tiles={tiles} yard={round.yard !== null} way />
    </section>
  )
}
