import sharp from 'sharp'
import { ATTACHMENT_BYTES_MAX, sayBytes } from '@/lib/domain/limits'

export type Content =
  | { kind: 'kept'; type: 'image/jpeg' | 'application/pdf'; extension: 'jpg' | 'pdf'; bytes: Uint8Array }
  /** One sentence for the person who chose the file. */
  | { kind: 'refused'; message: string }

/** More points than any phone's camera has; a small file that unpacks to more is refused before it is unpacked. */
export const PIXELS_MAX = 110_000_000

/** The longer side of a stored photo: small print on a sheet stays readable. */
const SIDE_MAX = 3000

export const TOO_LARGE = `The file is larger than ${sayBytes(ATTACHMENT_BYTES_MAX)}. Make the photo smaller, or scan with fewer points.`

const REFUSED =
  'This is not a photo (JPEG, PNG, WebP) or a PDF. Take a photo of the sheet, or save it as a PDF, and attach that.'

/**
 * What an uploaded file is, told by its content alone: its name and the type the browser claims count for nothing.
 * A photo is drawn anew as a plain JPEG, which leaves behind place, device and anything hidden in or after it. A PDF is kept
 * byte for byte; it is only ever handed out as a download.
 */
export async function readContent(bytes: Uint8Array): Promise<Content> {
  if (bytes.length === 0) return refused('The file is empty. Choose it again.')
  if (bytes.length > ATTACHMENT_BYTES_MAX) return refused(TOO_LARGE)
  const kind = kindOf(bytes)
  if (kind === null) return refused(isHeic(bytes) ? REFUSED_HEIC : REFUSED)
  return kind === 'pdf' ? readPdf(bytes) : readImage(bytes, kind)
}

const REFUSED_HEIC =
  'This photo is in the format HEIC, which cannot be read here. Set the camera of the phone to JPEG (often called “most compatible”) and take it again, or take a screenshot of the photo and attach that.'

type Kind = 'jpeg' | 'png' | 'webp' | 'pdf'

/** The kind by its first bytes; they must stand at the very beginning. */
function kindOf(bytes: Uint8Array): Kind | null {
  const starts = (at: number, ...wanted: number[]) => wanted.every((byte, i) => bytes[at + i] === byte)
  if (starts(0, 0xff, 0xd8, 0xff)) return 'jpeg'
  if (starts(0, 0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)) return 'png'
  if (starts(0, 0x52, 0x49, 0x46, 0x46) && starts(8, 0x57, 0x45, 0x42, 0x50)) return 'webp'
  if (starts(0, 0x25, 0x50, 0x44, 0x46, 0x2d)) return 'pdf'
  return null
}

/** Brands of the container (ISO 14496-12 "ftyp") under which phones save HEIC: ISO 23008-12, annex B; from memory. */
const HEIC_BRANDS = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1']

/** Whether it says of itself that it is a HEIC photo; only for the words of the refusal. */
function isHeic(bytes: Uint8Array): boolean {
  const head = Buffer.from(bytes.subarray(4, 12)).toString('latin1')
  return head.startsWith('ftyp') && HEIC_BRANDS.includes(head.slice(4))
}

async function readImage(bytes: Uint8Array, kind: Exclude<Kind, 'pdf'>): Promise<Content> {
  try {
    const image = sharp(bytes, { failOn: 'error', limitInputPixels: PIXELS_MAX, pages: 1 })
    const { format } = await image.metadata()
    if (format !== kind) return refused(REFUSED)
    const drawn = await image
      .autoOrient()
      .resize({ width: SIDE_MAX, height: SIDE_MAX, fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#ffffff' })
      .jpeg({ quality: 82 })
      .toBuffer()
    return { kind: 'kept', type: 'image/jpeg', extension: 'jpg', bytes: drawn }
  } catch (error) {
    // The decoder's own words are for programmers; a picture that cannot be drawn is the person's to mend.
    if (error instanceof Error)
      return refused('The photo is damaged, or far too large to draw. Take it again, or save it as a JPEG.')
    throw error
  }
}

function readPdf(bytes: Uint8Array): Content {
  const end = Buffer.from(bytes.subarray(-2048)).toString('latin1')
  if (!end.includes('%%EOF')) return refused('The PDF is cut short. Save or download it again.')
  return { kind: 'kept', type: 'application/pdf', extension: 'pdf', bytes }
}

const refused = (message: string): Content => ({ kind: 'refused', message })
