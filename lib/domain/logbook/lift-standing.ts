import {
  type LiftMonth,
  liftOverYear,
  monthlyStatic,
  PIPE_WALLS,
  type SuctionFriction,
  type SuctionLine,
  suctionFriction,
} from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { CurrentFact } from './entries'
import type { Equipment } from './equipment'
import type { WellRegister } from './register'
import { levelSeries } from './series'
import { sideBySide } from './wear-questions'

export type LiftStanding =
  | {
      kind: 'year'
      months: LiftMonth[]
      /** The month in which least is to spare. */
      tightest: LiftMonth & { spareM: number }
      unknown: number
      flow: { on: Day; m3PerS: number }
      drawdownM: number
      line: SuctionLine
      /** Friction of that line by both laws at that flow. */
      friction: SuctionFriction
      /** Suction head that the pump asks for, m, margin and all. */
      requiredM: number
      /** What was taken because the register does not hold it. */
      assumed: { required: boolean; bore: boolean; length: boolean; fittings: boolean; material: boolean }
      /** Drop that was counted on the suction side, Pa, and why it was or was not. */
      cartridge: { dropPa: number; says: 'none read' | 'behind the pump' | 'before the pump' }
    }
  | { kind: 'cannot-say'; enter: string[] }

/** What is taken where the register has no place for it. All common practice, no published source. */
export const LIFT_ASSUMED = {
  /** Suction head that a small surface pump asks for, m, and the margin that is kept on top of any. */
  npshM: 2.5,
  marginM: 0.5,
  /** On the warm side for a shallow well: warmer water takes more of the air's push. */
  temperatureC: 15,
  /** Bore of 1¼ in plastic pipe, m. */
  insideM: 0.035,
  /** A foot valve, a check valve and two bends. */
  kSum: 5,
  /** Pipe along the ground from head to pump, m. */
  alongM: 3,
} as const

/**
 * Suction head to spare in each month at the flow last read.
 * Answer  'cannot-say' with what to enter, where altitude, lift, a level at rest, flow or capacity is not known.
 */
export function liftStanding(
  register: WellRegister,
  { altitudeM, liftM, suction, pump }: Equipment,
  facts: readonly CurrentFact[],
  capacityM2PerS: number | null,
): LiftStanding {
  const rest = levelSeries(facts).rest
  const sides = sideBySide(facts)
  const flowSide = sides.filter((side) => (side.flowM3PerS ?? 0) > 0).at(-1)
  const reachM = register.intakeDepthM ?? register.wellDepthM
  const flow = flowSide?.flowM3PerS ?? null
  if (
    altitudeM === null ||
    liftM === null ||
    rest.length === 0 ||
    !flowSide ||
    flow === null ||
    capacityM2PerS === null ||
    reachM === null
  ) {
    return {
      kind: 'cannot-say',
      enter: [
        ...(altitudeM === null ? ['the altitude (edit the well)'] : []),
        ...(liftM === null ? ['the lift from level ground to the pump (edit the well)'] : []),
        ...(reachM === null ? ['the intake depth or the well depth (edit the well)'] : []),
        ...(rest.length === 0 ? ['a level at rest (log a visit)'] : []),
        ...(flow === null ? ['a flow (log a visit)'] : []),
        ...(capacityM2PerS === null ? ['flow and both levels of one visit (log a visit)'] : []),
      ],
    }
  }
  const { npshM, marginM, temperatureC, insideM, kSum, alongM } = LIFT_ASSUMED
  const requiredM = (pump?.npshRequiredM ?? npshM) + marginM
  const { roughnessM, c } = PIPE_WALLS[suction.material ?? 'plastic']
  const line = {
    pipes: [
      {
        lengthM: suction.lengthM ?? reachM + Math.abs(liftM) + alongM,
        insideM: suction.boreM ?? insideM,
      },
    ],
    kSum: suction.kSum ?? kSum,
    roughnessM,
    hazenC: c,
  }
  const cartridge = suctionDrop(facts)
  const year = liftOverYear(
    {
      altitudeM,
      groundToPumpM: liftM,
      temperatureC: Array.from({ length: 12 }, () => temperatureC),
      line,
      flowM3PerS: flow,
      capacityM2PerS,
      cartridgeDropPa: cartridge.dropPa,
      requiredM,
    },
    monthlyStatic(rest.map(({ on, value }) => ({ on, levelM: value }))),
  )
  if (year.kind === 'cannot-say') return { kind: 'cannot-say', enter: [year.says] }
  const [tightest] = year.months
    .flatMap((month) => (month.spareM === null ? [] : [{ ...month, spareM: month.spareM }]))
    .sort((a, b) => a.spareM - b.spareM)
  if (!tightest) throw new Error('a year of lift without a month')
  return {
    kind: 'year',
    months: year.months,
    tightest,
    unknown: year.unknown.length,
    flow: { on: flowSide.on, m3PerS: flow },
    drawdownM: flow / capacityM2PerS,
    line,
    friction: suctionFriction(line, flow, temperatureC),
    requiredM,
    assumed: {
      required: pump === null || pump.npshRequiredM === null,
      bore: suction.boreM === null,
      length: suction.lengthM === null,
      fittings: suction.kSum === null,
      material: suction.material === null,
    },
    cartridge,
  }
}

type SuctionDrop = Extract<LiftStanding, { kind: 'year' }>['cartridge']

/** A gauge before the cartridge that shows more than the air's own pressure stands behind the pump. */
function suctionDrop(facts: readonly CurrentFact[]): SuctionDrop {
  const last = sideBySide(facts)
    .filter((side) => side.dropPa !== null)
    .at(-1)
  if (!last || last.dropPa === null) return { dropPa: 0, says: 'none read' }
  if ((last.beforePa ?? 0) > 0) return { dropPa: 0, says: 'behind the pump' }
  return { dropPa: Math.max(0, last.dropPa), says: 'before the pump' }
}
