import { ATTACHMENT_BYTES_MAX, sayBytes } from '@/lib/domain/limits'

/** Photos of the visit. They hang on its first line; a visit needs something written as well. */
export function PhotoField({ label = 'Photos (optional)' }: { label?: string }) {
  return (
    <div className="field">
      <label className="label" htmlFor="photo">
        {label}
      </label>
      <span className="hint" id="photo-hint">
        JPEG, PNG or WebP, at most {sayBytes(ATTACHMENT_BYTES_MAX)} each. Place and device are taken out of
        them when they are stored.
      </span>
      <input
        className="input"
        type="file"
        id="photo"
        name="photo"
        multiple
        accept="image/jpeg,image/png,image/webp"
        aria-describedby="photo-hint"
      />
    </div>
  )
}
