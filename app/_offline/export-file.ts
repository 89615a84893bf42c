import { listOf } from './queue'

/** The form of the file. 2 since tests and lab sheets can wait too; files of form 1 are read back as ever. */
export const FILE_VERSION = 2

/**
 * Everything a person has not sent, as one file of JSON: records as typed, photos with their bytes in base64. The last
 * resort where a phone cannot send: import-file.ts reads it back on another, and a person can read it as it is.
 */
export async function unsentFile(user: string, at: Date): Promise<{ name: string; text: string }> {
  const { visits, photos } = await listOf(user)
  const text = JSON.stringify(
    {
      form: 'wellround-unsent',
      version: FILE_VERSION,
      savedAt: at.toISOString(),
      user,
      records: visits.filter(({ state }) => state !== 'sent'),
      photos: photos.map(({ bytes, ...photo }) => ({ ...photo, base64: base64(bytes) })),
    },
    null,
    1,
  )
  return { name: `wellround-unsent-${at.toISOString().slice(0, 10)}.json`, text }
}

/** In pieces: a photo has more bytes than a function takes arguments. */
function base64(bytes: ArrayBuffer): string {
  const view = new Uint8Array(bytes)
  let text = ''
  for (let i = 0; i < view.length; i += 0x8000) text += String.fromCharCode(...view.subarray(i, i + 0x8000))
  return btoa(text)
}

/** Hands a text to the person as a file. */
export function download({ name, text }: { name: string; text: string }): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(new Blob([text], { type: 'application/json' }))
  link.download = name
  document.body.append(link)
  link.click()
  link.remove()
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000)
}
