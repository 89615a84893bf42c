import { paths } from '@/lib/paths'
import type { Picture } from './store'

/** A round has some twenty wells with a handful of photos each; what goes beyond stays with the server. */
const PICTURES_MAX = 200

/**
 * The photos of the places that a well or a round names, fetched one after another. `missing` counts those that did not
 * come: the words of the find sheet are there without them. `data` is what the server handed out for the phone.
 */
export async function picturesOf(data: unknown): Promise<{ pictures: Picture[]; missing: number }> {
  const ids = namesOf(data)
  const pictures: Picture[] = []
  for (const id of ids.slice(0, PICTURES_MAX)) {
    try {
      const answer = await fetch(paths.attachment(id), { cache: 'no-store' })
      if (answer.ok) pictures.push({ id, blob: await answer.blob() })
    } catch {
      // The signal went meanwhile: it is counted as missing, and said.
    }
  }
  return { pictures, missing: ids.length - pictures.length }
}

function namesOf(data: unknown): string[] {
  const names = typeof data === 'object' && data !== null && 'pictures' in data ? data.pictures : []
  return Array.isArray(names) ? names.filter((name) => typeof name === 'string') : []
}
