import { useEffect, useState } from 'react'

/** Written here and not sent yet, or taken along. */
type Lying = { bytes: ArrayBuffer; type: string } | { blob: Blob }

/** A photo as it lies on the phone. */
export function PhotoPicture({ photo, words }: { photo: Lying; words: string }) {
  const [url, setUrl] = useState<string | null>(null)
  useEffect(() => {
    const made = URL.createObjectURL(
      'blob' in photo ? photo.blob : new Blob([photo.bytes], { type: photo.type }),
    )
    setUrl(made)
    return () => URL.revokeObjectURL(made)
  }, [photo])
  // biome-ignore lint/performance/noImgElement: the picture lies on the phone; no server can make it smaller.
  return url === null ? null : <img className="unsent-photo" src={url} alt={words} />
}
