import type { z } from 'zod'

/**
 * What a form shows again after it was sent: the text as typed, and one sentence a field.
 * `message` is for a refusal that belongs to no single field; a state without errors and message is a fresh form.
 */
export type FormState = {
  typed: Record<string, string>
  errors: Record<string, string>
  message?: string
  /** What was done, where the form stays on screen after it was accepted. */
  done?: string
}

export const EMPTY_FORM: FormState = { typed: {}, errors: {} }

export type Parsed<T> = { ok: true; value: T; typed: FormState['typed'] } | { ok: false; state: FormState }

/**
 * Reads the fields that the schema names from a sent form.
 *
 * Shape   each field reaches the schema as the text typed, '' where the form lacks it; files are left out.
 * Answer  the parsed value, or the state that the form shows again, with the first complaint of each field.
 *         Fields named in `secret` are never sent back to the page.
 */
export function parseForm<S extends z.ZodObject>(
  schema: S,
  form: FormData,
  secret: readonly (keyof S['shape'] & string)[] = [],
): Parsed<z.output<S>> {
  const sent = sentForm(form)
  const raw = Object.fromEntries(Object.keys(schema.shape).map((name) => [name, textOf(sent.get(name))]))
  const hidden = new Set<string>(secret)
  const typed = Object.fromEntries(Object.entries(raw).filter(([name]) => !hidden.has(name)))
  const parsed = schema.safeParse(raw)
  if (parsed.success) return { ok: true, value: parsed.data, typed }
  const errors: FormState['errors'] = {}
  for (const issue of parsed.error.issues) errors[String(issue.path[0] ?? '')] ??= issue.message
  return { ok: false, state: { typed, errors } }
}

/** An action is a public address: what is sent to it need not be a form at all, and then reads as one that is empty. */
export function sentForm(form: unknown): FormData {
  return form instanceof FormData ? form : new FormData()
}

function textOf(value: FormDataEntryValue | null): string {
  return typeof value === 'string' ? value : ''
}

/** Every text field of a sent form as typed; files and what the framework adds are left out. */
export function typedFields(form: FormData): Record<string, string> {
  return Object.fromEntries(
    [...sentForm(form)].filter(
      (pair): pair is [string, string] => typeof pair[1] === 'string' && !pair[0].startsWith('$'),
    ),
  )
}
