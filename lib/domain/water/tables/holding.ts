/**
 * Bottles, preservation, and how long a sample keeps: from collection to analysis (bacteria: to the start of incubation).
 * Laboratories may be stricter: their own times win (settings). Six months is held as 4383 h.
 */
import { HOLDING_MAIN } from './holding-main'
import { HOLDING_OTHER } from './holding-other'
import type { HoldingRow } from './holding-sources'

export type { HoldingRow } from './holding-sources'

export const HOLDING: readonly HoldingRow[] = [...HOLDING_MAIN, ...HOLDING_OTHER]
