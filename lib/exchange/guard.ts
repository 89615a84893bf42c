/**
 * Cells that a spreadsheet would run as a formula, made harmless on the way out and restored on the way in.
 *
 * A text that begins with = + - @ tab or return gets a quotation mark (') in front. So that taking it off again gives
 * back exactly what was there, a text that begins with quotation marks followed by one of these gets one, too.
 */
const AT_RISK = /^'*[=+\-@\t\r]/
const GUARDED = /^'+[=+\-@\t\r]/

/** The text as a file may hold it. */
export function guarded(text: string): string {
  return AT_RISK.test(text) ? `'${text}` : text
}

/** The text as it was before `guarded`; any other text unchanged. */
export function unguarded(text: string): string {
  return GUARDED.test(text) ? text.slice(1) : text
}
