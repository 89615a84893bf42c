import { z } from 'zod'
import {
  dimensionOf,
  displayUnit,
  formatNumberPlain,
  parseQuantity,
  parseTime,
  type UnitSystem,
  type Use,
  unitSymbol,
} from '@/lib/domain/quantity'
import { type Day, isDay, parseDay } from '@/lib/domain/quantity/day'

/** A field that may be left blank: blank is unknown, and never zero or an empty text. */
export const optionalText = (what: string, max: number) =>
  z
    .string()
    .trim()
    .max(max, `The ${what} must be ${max} characters or fewer`)
    .transform((text) => (text === '' ? null : text))

/** An amount as read, beside the text it came from, with the field's unit where none was typed. */
export type Amount = { si: number; typed: string }

/** A quantity in the reader's usual unit or with its own, blank for unknown. `min` and `max` in SI. */
export function optionalQuantity(use: Use, system: UnitSystem, min: number, max: number) {
  const unit = displayUnit(use, system)
  return z.string().transform((text, context): Amount | null => {
    const reading = parseQuantity(text, { dimension: dimensionOf(unit), unit, locale: 'en', min, max })
    switch (reading.kind) {
      case 'blank':
        return null
      case 'problem':
        context.addIssue({ code: 'custom', message: reading.message })
        return z.NEVER
      case 'value': {
        const { si, typed } = reading.quantity
        // The field showed its unit beside the number: kept with it, the text means the same to every reader.
        return { si, typed: reading.assumedUnit ? `${typed} ${unitSymbol(unit)}`.trim() : typed }
      }
    }
  })
}

/** A plain day, blank for unknown. Days after `last` are refused where one is given. */
export function optionalDay(what: string, last: Day | null) {
  return z.string().transform((text, context): Day | null => {
    if (text.trim() === '') return null
    const reading = parseDay(text, null)
    const message = !reading.ok
      ? reading.message
      : last !== null && reading.day > last
        ? `The ${what} must be today or earlier`
        : null
    if (message !== null || !reading.ok) {
      context.addIssue({ code: 'custom', message: message ?? '' })
      return z.NEVER
    }
    return reading.day
  })
}

/** A day of any year as 'MM-DD', from "11-15", "Nov 15", "15 November"; blank for none. */
export function optionalMonthDay(what: string) {
  return z.string().transform((text, context): string | null => {
    const tidy = text.trim()
    if (tidy === '') return null
    // Read in a leap year, so that 29 February is a day.
    const written = /^\d{1,2}-\d{1,2}$/.test(tidy) ? `2024-${tidy}` : `${tidy} 2024`
    const reading = parseDay(written, null)
    if (reading.ok && isDay(reading.day)) return reading.day.slice(5)
    context.addIssue({ code: 'custom', message: `The ${what} must be a month and a day, like 15 Nov` })
    return z.NEVER
  })
}

/** A field that may be blank, made one that must not be: blank is answered with the sentence. */
export function needed<T>(field: z.ZodType<T | null, string>, sentence: string) {
  return field.transform((value, context): T => {
    if (value !== null) return value
    context.addIssue({ code: 'custom', message: sentence })
    return z.NEVER
  })
}

/** A time of day as 'HH:MM', from "10:00", "9:30", "2 pm"; blank for none. */
export function optionalTime(what: string) {
  return z.string().transform((text, context): string | null => {
    if (text.trim() === '') return null
    const reading = parseTime(text)
    if (reading.ok) return reading.time
    context.addIssue({ code: 'custom', message: `The ${what} must be a time of day, like 10:00` })
    return z.NEVER
  })
}

/**
 * The text with which a field offers a stored amount: as typed where it reads back as the same amount, else in the
 * reader's unit. The field shows that unit, so it is not written twice; any other unit is. A "12" that once meant feet
 * must not come back as 12 m under other units.
 */
export function offeredText(
  si: number | null,
  typed: string | undefined,
  use: Use,
  system: UnitSystem,
): string {
  if (si === null) return ''
  const unit = displayUnit(use, system)
  const readsBack = (text: string) => {
    const min = Number.NEGATIVE_INFINITY
    const reading = parseQuantity(text, { dimension: dimensionOf(unit), unit, locale: 'en', min })
    return reading.kind === 'value' && reading.quantity.si === si
  }
  const bare = /^([\d.,/ -]*\d)[^\d]*$/.exec(typed ?? '')?.[1]
  if (bare !== undefined && readsBack(bare)) return bare
  if (typed !== undefined && readsBack(typed)) return typed
  return formatNumberPlain(si, unit)
}
