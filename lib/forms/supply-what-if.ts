import type { UnitSystem } from '@/lib/domain/quantity'
import { optionalQuantity } from './fields'
import type { FormState } from './form'
import { type Params, textParam } from './list-filters'

const TANK_M3_MAX = 1000
const PANEL_W_MAX = 20_000

/** What an address asks to be otherwise; null stays as it is. */
export type WhatIf = {
  tankM3: number | null
  /** Demand over the present one. */
  demandTimes: number | null
  panelW: number | null
}

/**
 * The changes that an address asks for, with the form filled in as it was sent. A field that cannot be read changes nothing
 * and is told.
 */
export function readWhatIf(
  params: Params,
  system: UnitSystem,
): { asked: WhatIf; state: FormState; any: boolean } {
  const typed = {
    tank: textParam(params, 'tank'),
    demand: textParam(params, 'demand'),
    panel: textParam(params, 'panel'),
  }
  const errors: Record<string, string> = {}
  const quantity = (field: 'tank' | 'panel', most: number) => {
    const use = field === 'tank' ? ('tank' as const) : ('power' as const)
    const read = optionalQuantity(use, system, 0, most).safeParse(typed[field])
    if (read.success) return read.data?.si ?? null
    errors[field] = read.error.issues[0]?.message ?? 'This cannot be read'
    return null
  }
  const asked = {
    tankM3: quantity('tank', TANK_M3_MAX),
    panelW: quantity('panel', PANEL_W_MAX),
    demandTimes: timesOf(typed.demand, errors),
  }
  return { asked, state: { typed, errors }, any: Object.values(asked).some((value) => value !== null) }
}

function timesOf(text: string, errors: Record<string, string>): number | null {
  const tidy = text.replace(/%$/, '').trim()
  if (tidy === '') return null
  const value = Number(tidy)
  if (/^\d{1,4}(\.\d+)?$/.test(tidy) && value >= 1 && value <= 1000) return value / 100
  errors.demand = 'The demand must be per cent of the present one, from 1 to 1000'
  return null
}
