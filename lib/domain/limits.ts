/**
 * How much may be sent at once. Each number stands here alone: forms, routes, the proxy, the framework's own limits, the words on
 * screen and the table in DEVELOPERS.md take it from here.
 */
const MIB = 1024 * 1024

/** A table that is imported. */
export const FILE_BYTES_MAX = 25 * MIB
/** A photo or a PDF: photos of today's phones are 3 to 8 MB. */
export const ATTACHMENT_BYTES_MAX = 10 * MIB
/** A batch of records from a phone; fifty full visit forms are a tenth of it. */
export const BATCH_BYTES_MAX = MIB
/** A whole form: the largest file, and what is typed around it. All photos of one save stay below it together. */
export const FORM_BYTES_MAX = FILE_BYTES_MAX + MIB
/** A form from somebody who is not signed in: signing in, a card, a new password. */
export const DOOR_BYTES_MAX = 64 * 1024

/** A limit as people are told it: "25 MB", or "64 kB" below one megabyte. */
export function sayBytes(bytes: number): string {
  return bytes < MIB ? `${Math.floor(bytes / 1024)} kB` : `${Math.floor(bytes / MIB)} MB`
}
