import { z } from 'zod'
import { WATER_SETTINGS, type WaterSettings } from '@/lib/domain/water/appraise'
import { checkLocalLimit, SCHEME_IDS, type SchemeId } from '@/lib/domain/water/schemes'

/** What the outfit may choose about the reckoning. A change makes every standing stale. */
export type ReckonSettings = {
  /** Share of wells without a decline that may ever be flagged over a whole record. */
  falseAlarmShare: number
  water: WaterSettings
}

export const RECKON_SETTINGS: ReckonSettings = { falseAlarmShare: 0.05, water: WATER_SETTINGS }

/** The key under which the choices are kept. */
export const RECKON_KEY = 'reckoning'

/** A limit with a unit that cannot be read would stop every reckoning: it is refused here. */
const localLimit = z
  .object({
    analyte: z.string().min(1).max(120),
    kind: z.enum(['health', 'action', 'advisory', 'aesthetic']),
    max: z.number().min(0),
    min: z.number().min(0).optional(),
    unit: z.string().max(60),
    source: z.string().trim().min(1).max(400),
    date: z.string().max(40),
    from: z.string().optional(),
    until: z.string().optional(),
  })
  .superRefine((limit, context) => {
    const problem = checkLocalLimit(limit)
    if (problem !== null) context.addIssue({ code: 'custom', message: problem })
  })

/** What is stored: only what was chosen; everything else is as the house has it. */
export const reckonChoices = z.object({
  falseAlarmShare: z.number().gt(0).lt(0.5).optional(),
  scheme: z.enum(SCHEME_IDS as [SchemeId, ...SchemeId[]]).optional(),
  local: z.array(localLimit).max(500).optional(),
  /** Absent: a household's sheet waits until somebody of the outfit has confirmed it. */
  ownerSheetsCount: z.boolean().optional(),
})
export type ReckonChoices = z.infer<typeof reckonChoices>

/** The choices over the defaults. */
export function reckonSettingsOf(choices: ReckonChoices): ReckonSettings {
  const { water } = RECKON_SETTINGS
  const { falseAlarmShare, scheme, local, ownerSheetsCount } = choices
  return {
    falseAlarmShare: falseAlarmShare ?? RECKON_SETTINGS.falseAlarmShare,
    water: {
      ...water,
      scheme: scheme ?? water.scheme,
      local: local ?? water.local,
      ownerSheetsCount: ownerSheetsCount ?? water.ownerSheetsCount,
    },
  }
}
