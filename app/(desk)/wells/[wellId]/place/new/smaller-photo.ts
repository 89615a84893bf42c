/** The longer side that is sent: a mark is known again on it, and eight of them go up in one save. */
const SIDE_MAX = 2200
/** Smaller files are sent as they are. */
const SMALL_BYTES = 900_000
/** What the server takes; another format that this browser can draw (HEIC on some phones) is sent as a JPEG. */
const TAKEN = ['image/jpeg', 'image/png', 'image/webp']

/**
 * The photo drawn smaller as a JPEG, upright; null where it is small enough, or where this browser cannot draw it: then
 * it is sent as it was taken, and the server says what is wrong with it.
 */
export async function smallerPhoto(file: File): Promise<File | null> {
  const taken = TAKEN.includes(file.type)
  if (taken && file.size <= SMALL_BYTES) return null
  try {
    const picture = await createImageBitmap(file, { imageOrientation: 'from-image' })
    const share = Math.min(1, SIDE_MAX / Math.max(picture.width, picture.height))
    const canvas = document.createElement('canvas')
    canvas.width = Math.round(picture.width * share)
    canvas.height = Math.round(picture.height * share)
    canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height)
    picture.close()
    const drawn = await new Promise<Blob | null>((done) => canvas.toBlob(done, 'image/jpeg', 0.85))
    if (!drawn || (taken && drawn.size >= file.size)) return null
    return new File([drawn], file.name.replace(/\.[^.]*$/, '.jpg'), { type: 'image/jpeg' })
  } catch {
    // Not a picture that this browser reads: the server looks at it and says so.
    return null
  }
}
