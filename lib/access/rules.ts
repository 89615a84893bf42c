import type { Role, Viewer } from './viewer'

/**
 * What can be asked for, and who may. One row an action; every read and write of lib/records
 * asks here. "own" means the wells of any household that the viewer belongs to.
 */
export const RULES = {
  'well.see': { installer: 'all', technician: 'all', owner: 'own' },
  // What a former household was granted of a well it sold.
  'past.see': { installer: 'none', technician: 'none', owner: 'own' },
  'well.edit': { installer: 'all', technician: 'none', owner: 'none' },
  'duty.edit': { installer: 'all', technician: 'none', owner: 'none' },
  'entry.record': { installer: 'all', technician: 'all', owner: 'own' },
  'entry.correct': { installer: 'all', technician: 'all', owner: 'none' },
  // A chain after a positive, ended by a person without the clear samples.
  'chain.close': { installer: 'all', technician: 'none', owner: 'none' },
  // Rounds: planning puts stops on and takes them off; working orders, drives and closes them.
  'round.see': { installer: 'all', technician: 'all', owner: 'none' },
  'round.plan': { installer: 'all', technician: 'none', owner: 'none' },
  'round.work': { installer: 'all', technician: 'all', owner: 'none' },
  // Codes printed for lids and pumps. Printing them again is seeing.
  'plate.edit': { installer: 'all', technician: 'none', owner: 'none' },
  'import.run': { installer: 'all', technician: 'none', owner: 'none' },
  'export.run': { installer: 'all', technician: 'none', owner: 'none' },
  // The shelf: what is on it, and every line of the stock book.
  'stock.keep': { installer: 'all', technician: 'all', owner: 'none' },
  'fleet.see': { installer: 'all', technician: 'all', owner: 'none' },
  // Adding a household to one's own account, with a card.
  'household.join': { installer: 'none', technician: 'none', owner: 'all' },
  'user.manage': { installer: 'all', technician: 'none', owner: 'none' },
  'setting.edit': { installer: 'all', technician: 'none', owner: 'none' },
} as const satisfies Record<string, Record<Role, 'all' | 'own' | 'none'>>

export type Action = keyof typeof RULES

/** How far an action reaches for a viewer. An owner without a household reaches nothing. */
export function reach(
  viewer: Viewer,
  action: Action,
): { kind: 'all' } | { kind: 'own'; ownerIds: readonly string[] } | { kind: 'none' } {
  const scope = RULES[action][viewer.role]
  if (scope === 'own')
    return viewer.ownerIds.length === 0 ? { kind: 'none' } : { kind: 'own', ownerIds: viewer.ownerIds }
  // Written out, so that a role nobody has heard of reaches nothing wherever only "none" is asked about.
  return scope === 'all' ? { kind: 'all' } : { kind: 'none' }
}

/** Whether the viewer may do this to a well of that household (null: a well without an owner). */
export function may(viewer: Viewer, action: Action, wellOwnerId: string | null): boolean {
  const scope = reach(viewer, action)
  if (scope.kind === 'own') return wellOwnerId !== null && scope.ownerIds.includes(wellOwnerId)
  return scope.kind === 'all'
}

/** Whether the viewer may do this to the fleet as a whole. */
export function mayFleet(viewer: Viewer, action: Action): boolean {
  return reach(viewer, action).kind === 'all'
}

/** Thrown where a page or action asks for what its viewer may not do; shown as "not found". */
export class NotAllowed extends Error {
  constructor(action: Action) {
    super(`not allowed: ${action}`)
    this.name = 'NotAllowed'
  }
}

/** Throws NotAllowed unless the viewer may do this to the fleet as a whole. */
export function demandFleet(viewer: Viewer, action: Action): void {
  if (!mayFleet(viewer, action)) throw new NotAllowed(action)
}
