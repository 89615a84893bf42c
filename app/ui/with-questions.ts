import type { FormState } from '@/lib/forms/form'
import type { Question } from '@/lib/forms/visit/reader'

/** The state of a form that may come back with questions about odd values. */
export type Asking = FormState & { questions: Record<string, Question> }

/** Questions stop a form as errors do: they stand in the summary too. */
export function withQuestions(state: Asking): Asking {
  const questions = Object.fromEntries(
    Object.entries(state.questions).map(([field, question]) => [field, question.message]),
  )
  return { ...state, errors: { ...questions, ...state.errors } }
}
