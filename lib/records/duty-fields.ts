import type { Day } from '@/lib/domain/quantity/day'
import type { ConditionKind, Consequence } from '@/lib/domain/upkeep/types'

/** A duty as a form or a file states it. */
export type DutyFields = {
  key: string
  name: string
  consequence: Consequence
  everyMonths: number | null
  everyRunS: number | null
  everyM3: number | null
  condition: ConditionKind | null
  conditionLimitSi: number | null
  lastDoneOn: Day | null
  typed: Record<string, string>
}
