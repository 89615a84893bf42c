import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { stringify } from 'csv-stringify/sync'
import type { SimulatedWell } from './fleet'

/** Writes a fleet as the plain files that `npm run reckon` reads. */
export function writeFolder(path: string, fleet: readonly SimulatedWell[]): void {
  const wells = fleet.map(({ id, well }) => ({
    well: id,
    installed: well.installedOn,
    well_depth_m: well.wellDepthM,
    intake_depth_m: well.intakeDepthM,
    demand_l_per_day: well.demandM3PerS === null ? null : well.demandM3PerS * 86_400_000,
  }))
  const blank = {
    static_level_m: null,
    pumping_level_m: null,
    flow_l_per_min: null,
    pumped_min: null,
    event: null,
  }
  const visits = fleet.flatMap(({ id, visits: list, events }) => [
    ...list.map(({ on, staticM, pumpingM, flowM3PerS, pumpedS }) => ({
      ...blank,
      well: id,
      date: on,
      static_level_m: staticM?.toFixed(2),
      pumping_level_m: pumpingM?.toFixed(2),
      flow_l_per_min: flowM3PerS === null ? null : (flowM3PerS * 60_000).toFixed(1),
      pumped_min: pumpedS === null ? null : pumpedS / 60,
    })),
    ...events.map(({ on, kind }) => ({ ...blank, well: id, date: on, event: kind.replace('-', '_') })),
  ])
  const columns = ['well', 'date', ...Object.keys(blank)]
  writeFileSync(join(path, 'wells.csv'), stringify(wells, { header: true }))
  writeFileSync(join(path, 'visits.csv'), stringify(visits, { header: true, columns }))
}
