import { drivenAt } from './drive'
import { supplyResult } from './reserve'
import { type SupplyPlan, simulateYear } from './year'

export type SupplyInput = 'tank' | 'demand' | 'pump' | 'well' | 'sun'

export type Sensitivity = {
  input: SupplyInput
  /** Share by which it was made smaller and larger. */
  share: number
  smaller: { shortDays: number; missingM3: number }
  larger: { shortDays: number; missingM3: number }
}

/** A fifth: what flows, tanks and demands told by hand are usually known to. */
const SHARE = 0.2

/**
 * How the year changes with each input a fifth smaller and a fifth larger, the others as they stand, the one that
 * matters most first. Sun is left out for mains.
 * Throws  RangeError as simulateYear does.
 */
export function sensitivity(plan: SupplyPlan, share = SHARE): Sensitivity[] {
  const inputs: SupplyInput[] = ['tank', 'demand', 'pump', 'well']
  if (plan.drive.kind !== 'mains') inputs.push('sun')
  return inputs
    .map((input) => ({
      input,
      share,
      smaller: shortness(scaled(plan, input, 1 - share)),
      larger: shortness(scaled(plan, input, 1 + share)),
    }))
    .sort((a, b) => swing(b) - swing(a))
}

const swing = (s: Sensitivity): number => Math.abs(s.larger.missingM3 - s.smaller.missingM3)

function shortness(plan: SupplyPlan): { shortDays: number; missingM3: number } {
  const { shortDays, missingM3 } = supplyResult(simulateYear(plan), plan.tankM3)
  return { shortDays, missingM3 }
}

function scaled(plan: SupplyPlan, input: SupplyInput, by: number): SupplyPlan {
  switch (input) {
    case 'tank':
      return { ...plan, tankM3: plan.tankM3 * by, startM3: plan.startM3 * by }
    case 'demand':
      return {
        ...plan,
        uses: plan.uses.map((use) => ({ ...use, dailyM3: use.dailyM3.map((m3) => m3 * by) })),
      }
    case 'pump':
      return { ...plan, drive: drivenAt(plan.drive, by) }
    case 'well':
      return { ...plan, wellM3PerS: plan.wellM3PerS.map((rate) => rate * by) }
    case 'sun':
      return { ...plan, sunWPerM2: plan.sunWPerM2?.map((watts) => watts * by) ?? null }
  }
}
