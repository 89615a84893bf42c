import { type Equipment, NO_EQUIPMENT } from '@/lib/domain/logbook/equipment'
import { PIPE_MATERIALS, readFittings } from '@/lib/domain/pump'
import type { WellFields } from './well-fields'

type Placed = Pick<
  WellFields,
  | 'altitudeM'
  | 'liftM'
  | 'latitude'
  | 'outletDepthM'
  | 'frostDepthM'
  | 'suctionBoreM'
  | 'suctionLengthM'
  | 'suctionMaterial'
  | 'suctionFittings'
  | 'pumpRefOn'
  | 'pumpRefFlowM3PerS'
  | 'pumpRefHeadM'
  | 'pumpRefAmps'
  | 'pumpRefVolts'
>

/** Everything of the equipment that stands in the well's own row. */
export function equipmentOf(well: Placed): Equipment {
  const { altitudeM, liftM, latitude, outletDepthM, frostDepthM } = well
  const fittings = well.suctionFittings === null ? null : readFittings(well.suctionFittings)
  return {
    ...NO_EQUIPMENT,
    altitudeM,
    liftM,
    latitude,
    outletDepthM,
    frostDepthM,
    suction: {
      boreM: well.suctionBoreM,
      lengthM: well.suctionLengthM,
      material: PIPE_MATERIALS.find((known) => known === well.suctionMaterial) ?? null,
      kSum: fittings?.kind === 'sum' ? fittings.kSum : null,
    },
    reference: {
      on: well.pumpRefOn,
      flowM3PerS: well.pumpRefFlowM3PerS,
      headM: well.pumpRefHeadM,
      amps: well.pumpRefAmps,
      volts: well.pumpRefVolts,
    },
  }
}
