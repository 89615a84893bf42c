import { useEffect, useState } from 'react'
import type { QueuedPhoto } from '../store'

/** A photo as it lies on the phone. */
export function PhotoPicture({ photo, words }: { photo: QueuedPhoto; words: string }) {
  const [url, setUrl] = useState<string | null>(null)
  useEffect(() => {
    const made = URL.createObjectURL(new Blob([photo.bytes], { type: photo.type }))
    setUrl(made)
    return () => URL.revokeObjectURL(made)
  }, [photo])
  // biome-ignore lint/performance/noImgElement: the picture lies on the phone; no server can make it smaller.
  return url === null ? null : <img className="unsent-photo" src={url} alt={words} />
}
