import type { Dice } from './dice'
import type { FleetSettings } from './settings'

/** Throws of unit noise: normal, or with one in ten three times as wide. */
export function throwsOf({ heavyTails }: FleetSettings, dice: Dice): () => number {
  if (!heavyTails) return dice.normal
  return () => dice.normal() * (dice.uniform(0, 1) < 0.1 ? 3 : 1)
}
