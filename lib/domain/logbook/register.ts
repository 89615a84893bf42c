import type { Day } from '@/lib/domain/quantity/day'
import type { ClosedSeason, Duty } from '@/lib/domain/upkeep/types'
import type { Equipment } from './equipment'
import type { SupplySide } from './supply-facts'

/** What the reckoning needs to know of a well as built. Unknown is null, never zero. */
export type WellRegister = {
  installedOn: Day | null
  retiredOn: Day | null
  closed: ClosedSeason | null
  wellDepthM: number | null
  casingBoreM: number | null
  casingOutsideM: number | null
  pitDiameterM: number | null
  pitLengthM: number | null
  pitWidthM: number | null
  gravelPorosity: number | null
  intakeDepthM: number | null
  demandM3PerS: number | null
  storageM3: number | null
  /** Pump, cartridge and pipes; left out where nothing of them is known. */
  equipment?: Equipment
  duties: readonly (Duty & { id: string })[]
  /** What is known of the supply from this well; left out or null where nobody wrote it down. */
  supplySide?: SupplySide | null
}
