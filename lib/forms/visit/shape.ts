/** Rows and fields that the visit form repeats; kept apart so that the page's script carries nothing else. */

/** Rows of parts on the form. */
export const PART_ROWS = 3

/** At most this many brushes in one motor. */
export const BRUSHES_MAX = 4
