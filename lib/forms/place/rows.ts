/** Rows and fields of the place form; kept apart so that the page's script carries nothing else. */

/** Marks on the form. Three or four are measured; a fifth helps where one does not fit. */
export const MARK_ROWS = 5

/** The name of a field of one mark: "mark2Tape". */
export const markField = (row: number, field: MarkField): string => `mark${row}${field}`

export type MarkField =
  | 'Name'
  | 'Tape'
  | 'About'
  | 'Slope'
  | 'ToFirst'
  | 'ToSecond'
  | 'Side'
  | 'East'
  | 'North'
  | 'Lat'
  | 'Lon'
  | 'Accuracy'
