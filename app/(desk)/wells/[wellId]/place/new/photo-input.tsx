'use client'

import { type ChangeEvent, useState } from 'react'
import { smallerPhoto } from './smaller-photo'

/** One photo to choose or take. With script it is made smaller here, so that several go up in one save. */
export function PhotoInput({ name, label }: { name: string; label: string }) {
  const [said, setSaid] = useState('')
  const shrink = async ({ target }: ChangeEvent<HTMLInputElement>) => {
    const file = target.files?.[0]
    setSaid('')
    if (!file) return
    const smaller = await smallerPhoto(file)
    // Somebody may have chosen another one while this was drawn.
    if (!smaller || target.files?.[0] !== file) return
    const carrier = new DataTransfer()
    carrier.items.add(smaller)
    target.files = carrier.files
    setSaid(`Made smaller: ${(smaller.size / 1e6).toFixed(1)} MB`)
  }
  return (
    <div className="field">
      <label className="label" htmlFor={name}>
        {label}
      </label>
      <input
        className="input"
        type="file"
        id={name}
        name={name}
        accept="image/jpeg,image/png,image/webp"
        aria-describedby="photos-hint"
        onChange={shrink}
      />
      <span className="hint" role="status">
        {said}
      </span>
    </div>
  )
}
