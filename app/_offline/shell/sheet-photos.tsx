import { useEffect, useRef } from 'react'
import { PhotoField } from '@/app/(desk)/wells/[wellId]/visit/photo-field'

/**
 * Photos of the paper. The form of a sheet sets its fields anew with each answer (a pasted table goes into its rows),
 * which would let go of the photos that were chosen: they are put back.
 */
export function SheetPhotos() {
  const place = useRef<HTMLDivElement>(null)
  useEffect(() => {
    const field = place.current?.querySelector<HTMLInputElement>('input[type=file]')
    const form = field?.form
    if (!field || !form) return
    const keep = () => {
      const chosen = new DataTransfer()
      for (const file of field.files ?? []) chosen.items.add(file)
      // The browser empties the field right after this event.
      queueMicrotask(() => {
        field.files = chosen.files
      })
    }
    form.addEventListener('reset', keep)
    return () => form.removeEventListener('reset', keep)
  }, [])
  return (
    <div ref={place}>
      <PhotoField label="Photos of the sheet (optional)" />
    </div>
  )
}
