import type { Use } from '@/lib/domain/quantity/format'

/** The symbol of the unit in which this person reads each kind of quantity. */
export type Units = Readonly<Record<Use, string>>
