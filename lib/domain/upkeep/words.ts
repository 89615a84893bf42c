/** How upkeep says days and amounts in its sentences. */
import { type Day, formatDay, formatQuantity } from '@/lib/domain/quantity'
import type { ConditionKind, MeterKind } from './types'

/** 27 Mar 2026 */
export const sayDay = (day: Day) => formatDay(day, 'short', 'en-GB')

/** '11-30' as 30 Nov. */
export const sayMonthDay = (monthDay: string) => sayDay(`2024-${monthDay}`).replace(/ 2024$/, '')

/** Run time in hours; a volume in both systems, since a stored sentence does not know its reader. */
export function sayUse(si: number, meter: MeterKind): string {
  if (meter === 'hours') return formatQuantity(Math.round(si / 360) * 360, 'hours', 'metric')
  return `${formatQuantity(Math.round(si * 1000) / 1000, 'tank', 'us')} (${formatQuantity(si, 'tank', 'metric')})`
}

/** What is read for a condition, in the middle of a sentence. */
export const CONDITION_WORDS: Record<ConditionKind, string> = {
  brush_length: 'brush length',
  pressure_drop: 'pressure drop across the cartridge',
  flow_share: 'flow at a known head and voltage',
  flow: 'flow at a known head and voltage',
  lift_margin: 'level at rest, flow and drawdown',
}

/** First letter large, one full stop at the end. */
export function asSentence(text: string): string {
  const trimmed = text.trim().replace(/\.$/, '')
  return `${trimmed.charAt(0).toUpperCase()}${trimmed.slice(1)}.`
}
