import { z } from 'zod'
import { SCHEME_IDS, type SchemeId } from '@/lib/domain/water/schemes'

/** What the outfit chooses about the reckoning. The share is typed in percent, as people say it. */
export const reckonForm = z.object({
  falseAlarmPercent: z
    .string()
    .trim()
    .transform((text, context) => {
      const percent = /^\d{1,2}(\.\d+)?$/.test(text) ? Number(text) : Number.NaN
      if (percent >= 0.1 && percent <= 30) return percent / 100
      context.addIssue({ code: 'custom', message: 'The share must be a number from 0.1 to 30, like 5' })
      return z.NEVER
    }),
  /** Sent by a box that is ticked, and by nothing else. */
  ownerSheetsCount: z.string().transform((text) => text !== ''),
  scheme: z.enum(SCHEME_IDS as [SchemeId, ...SchemeId[]], 'Choose one of the schemes'),
})
