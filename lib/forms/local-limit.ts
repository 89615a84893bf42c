import { z } from 'zod'
import { readNumber } from '@/lib/domain/quantity/number-text'
import { analyteName, matchAnalyte } from '@/lib/domain/water/analytes'
import { checkLocalLimit, type LocalLimit } from '@/lib/domain/water/schemes'
import { optionalDay } from './fields'
import type { FormState } from './form'

export const LIMIT_KINDS = ['health', 'action', 'advisory', 'aesthetic'] as const

const analyte = z.string().transform((text, context): string => {
  const match = matchAnalyte(text)
  if (match.kind === 'match') return match.id
  const message =
    text.trim() === ''
      ? 'Say what the limit is for'
      : match.kind === 'doubtful'
        ? `"${text.trim()}" can be ${match.candidates.map(analyteName).join(' or ')}: choose one of them`
        : `"${text.trim()}" is not a name known here: choose one of the list`
  context.addIssue({ code: 'custom', message })
  return z.NEVER
})

const amount = (what: string) =>
  z.string().transform((text, context): number | null => {
    const tidy = text.trim()
    if (tidy === '') return null
    const reading = readNumber(tidy, 'en')
    if (reading.kind === 'number' && reading.length === tidy.length) return reading.value
    context.addIssue({ code: 'custom', message: `The ${what} must be a number, like 0.01` })
    return z.NEVER
  })

/** The fields of a limit of the installer's own. */
const limitForm = z.object({
  analyte,
  kind: z.enum(LIMIT_KINDS, 'Choose what the limit is about'),
  max: amount('limit'),
  min: amount('least value'),
  unit: z.string().trim().max(60, 'The unit must be 60 characters or fewer'),
  source: z
    .string()
    .trim()
    .min(1, 'Say where the value comes from: a verdict names its source')
    .max(400, 'The source must be 400 characters or fewer'),
  date: z
    .string()
    .trim()
    .min(1, 'Say of which year or day the source is, like 2024')
    .max(40, 'The date of the source must be 40 characters or fewer'),
  from: optionalDay('first day', null),
  until: optionalDay('last day', null),
})

export const LIMIT_FIELDS = Object.keys(limitForm.shape)

type Reading = { ok: true; limit: LocalLimit } | { ok: false; errors: FormState['errors'] }

/** Reads a local limit as typed; answers the limit, or one sentence a field. */
export function readLocalLimit(typed: Readonly<Record<string, string>>): Reading {
  const raw = Object.fromEntries(LIMIT_FIELDS.map((name) => [name, typed[name] ?? '']))
  const parsed = limitForm.safeParse(raw)
  if (!parsed.success) {
    const errors: FormState['errors'] = {}
    for (const issue of parsed.error.issues) errors[String(issue.path[0] ?? '')] ??= issue.message
    return { ok: false, errors }
  }
  const { max, min, from, until, ...rest } = parsed.data
  if (max === null) return wrong('max', 'Enter the limit: a result above it exceeds')
  if (min !== null && min > max) return wrong('min', 'The least value must be below the limit')
  if (from !== null && until !== null && until <= from)
    return wrong('until', 'The limit must hold for a day at least: it ends before it begins')
  const limit: LocalLimit = {
    ...rest,
    max,
    ...(min === null ? {} : { min }),
    ...(from === null ? {} : { from }),
    ...(until === null ? {} : { until }),
  }
  const problem = checkLocalLimit(limit)
  return problem === null
    ? { ok: true, limit }
    : wrong(
        'unit',
        `"${limit.unit}" is not a unit of ${analyteName(limit.analyte)}: write it as on a sheet, with its form`,
      )
}

const wrong = (field: string, message: string): Reading => ({ ok: false, errors: { [field]: message } })

/** What a form that changes a limit is filled with. */
export function typedLimit(limit: LocalLimit): Record<string, string> {
  const { analyte: id, kind, max, min, unit, source, date, from, until } = limit
  return {
    analyte: analyteName(id),
    kind,
    max: String(max),
    min: min === undefined ? '' : String(min),
    unit,
    source,
    date,
    from: from ?? '',
    until: until ?? '',
  }
}

/** The name of a limit in forms: what it says, so that a change made meanwhile by somebody else is noticed. */
export function limitKey(limit: LocalLimit): string {
  const { analyte: id, kind, max, min, unit, source, date, from, until } = limit
  return JSON.stringify([id, kind, max, min ?? null, unit, source, date, from ?? null, until ?? null])
}
