import { z } from 'zod'
import { PART_KINDS } from '@/lib/domain/logbook/kinds'
import type { Day } from '@/lib/domain/quantity/day'
import { optionalDay, optionalText } from './fields'

/** The form of a part that is installed in a well. */
export function partForm(today: Day) {
  return z
    .object({
      kind: z.enum(PART_KINDS, 'Choose what kind of part this is'),
      model: optionalText('model', 120),
      size: optionalText('size', 80),
      fittedOn: optionalDay('day it was fitted', today),
      warrantyUntil: optionalDay('last day of the warranty', null),
      removedOn: optionalDay('day it was removed', today),
      notes: optionalText('notes', 1000),
      beside: z.string().transform((text) => text === '1'),
    })
    .superRefine((part, context) => {
      const complain = (path: string, message: string) =>
        context.addIssue({ code: 'custom', path: [path], message })
      if (part.fittedOn !== null && part.removedOn !== null && part.removedOn < part.fittedOn) {
        complain('removedOn', 'A part cannot be removed before it was fitted')
      }
      if (part.fittedOn !== null && part.warrantyUntil !== null && part.warrantyUntil < part.fittedOn) {
        complain('warrantyUntil', 'A warranty cannot end before the part was fitted')
      }
    })
}

type StoredPart = Record<'model' | 'size' | 'notes', string | null> &
  Record<'fittedOn' | 'warrantyUntil' | 'removedOn', Day | null> & { kind: string; beside: boolean }

/** The texts with which the form of a stored part opens. */
export function partFormTexts(part: StoredPart): Record<string, string> {
  return {
    kind: part.kind,
    model: part.model ?? '',
    size: part.size ?? '',
    fittedOn: part.fittedOn ?? '',
    warrantyUntil: part.warrantyUntil ?? '',
    removedOn: part.removedOn ?? '',
    notes: part.notes ?? '',
    beside: part.beside ? '1' : '',
  }
}
