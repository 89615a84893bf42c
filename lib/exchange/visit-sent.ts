import type { Question } from '@/lib/forms/visit/reader'

/** What became of a visit form. */
export type VisitSent =
  | { kind: 'stored' | 'already'; visitId: string; wellId: string }
  /** The form as it must be shown again: complaints and questions by field. */
  | { kind: 'asked'; errors: Record<string, string>; questions: Record<string, Question> }
  /** For no single field. */
  | { kind: 'refused'; message: string }
  | { kind: 'no-such-well' }

export const SAVED_OTHERWISE =
  'This visit was saved already, with other words. Open its lines in the logbook to correct them, or log a new visit from the well.'
