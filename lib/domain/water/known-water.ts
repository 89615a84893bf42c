/** What register and logbook know of the water that stands in a well. SI; null is not known, and never zero. */
export type KnownWater = {
  casingBoreM: number | null
  casingOutsideM: number | null
  waterColumnM: number | null
  pitAreaM2: number | null
  gravelPorosity: number | null
  dropLengthM: number | null
  tankM3: number | null
}

type AsBuilt = {
  wellDepthM: number | null
  casingBoreM: number | null
  casingOutsideM: number | null
  pitDiameterM: number | null
  pitLengthM: number | null
  pitWidthM: number | null
  gravelPorosity: number | null
  intakeDepthM: number | null
  storageM3: number | null
}

/** The water by the measures of the well and its last level at rest, m below the measuring point. */
export function knownWater(well: AsBuilt, restLevelM: number | null): KnownWater {
  const columnM = restLevelM === null || well.wellDepthM === null ? null : well.wellDepthM - restLevelM
  return {
    casingBoreM: well.casingBoreM,
    casingOutsideM: well.casingOutsideM,
    // A level below the bottom is a slip of one of the two: neither is offered.
    waterColumnM: columnM !== null && columnM > 0 ? columnM : null,
    pitAreaM2: pitArea(well),
    gravelPorosity: well.gravelPorosity,
    dropLengthM: well.intakeDepthM,
    tankM3: well.storageM3,
  }
}

function pitArea({ pitDiameterM, pitLengthM, pitWidthM }: AsBuilt): number | null {
  if (pitDiameterM !== null) return (Math.PI / 4) * pitDiameterM ** 2
  return pitLengthM !== null && pitWidthM !== null ? pitLengthM * pitWidthM : null
}
