import { Zip, ZipDeflate, ZipPassThrough } from 'fflate'

/** Past this the common kind of archive cannot say where its own list begins. */
const MOST_BYTES = 0xffffffff

/** A ZIP archive written piece by piece, one file after the other; nothing of it is kept once it is handed out. */
export class Archive {
  private ready: Uint8Array[] = []
  private sent = 0
  private readonly zip = new Zip((error, piece) => {
    if (error) throw error
    this.ready.push(piece)
  })

  /** `at` is the time that all its files bear. */
  constructor(private readonly at: Date) {}

  /** A file that is made smaller, for text; give it its pieces and then its end. */
  packed(path: string): { add(bytes: Uint8Array): Generator<Uint8Array>; end(): Generator<Uint8Array> } {
    const file = new ZipDeflate(path, { level: 6 })
    file.mtime = this.at
    this.zip.add(file)
    const push = (bytes: Uint8Array, last: boolean) => {
      file.push(bytes, last)
      return this.handOut()
    }
    return { add: (bytes) => push(bytes, false), end: () => push(new Uint8Array(0), true) }
  }

  /** A file as it is, for photos and documents, which are packed already. */
  stored(path: string, bytes: Uint8Array): Generator<Uint8Array> {
    const file = new ZipPassThrough(path)
    file.mtime = this.at
    this.zip.add(file)
    file.push(bytes, true)
    return this.handOut()
  }

  /** The list of all files: without it no program takes the archive for whole. */
  end(): Generator<Uint8Array> {
    this.zip.end()
    return this.handOut()
  }

  /** Throws where the archive grows past what its kind can hold. */
  private *handOut(): Generator<Uint8Array> {
    const pieces = this.ready
    this.ready = []
    for (const piece of pieces) {
      this.sent += piece.length
      if (this.sent > MOST_BYTES) throw new Error('The archive is larger than its kind can hold')
      yield piece
    }
  }
}
