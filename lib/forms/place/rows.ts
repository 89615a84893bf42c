/** Rows and fields of the place form; kept apart so that the page's script carries nothing else. */

/** Marks on the form. Three or four are measured; a fifth helps where one does not fit. */
export const MARK_ROWS = 5

/** What else is worth a photo, by the name of its field; each says what it shows as it is stored. */
export const PLACE_PHOTOS = [
  { field: 'photoHead', about: 'head', label: 'Photo of the head (optional)' },
  { field: 'photoWayIn', about: 'way in', label: 'Photo of the way in (optional)' },
  { field: 'photoSketch', about: 'sketch', label: 'Photo of a sketch (optional)' },
] as const

/** The name of the photo field of one mark. */
export const markPhoto = (row: number): string => `photoMark${row}`

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
