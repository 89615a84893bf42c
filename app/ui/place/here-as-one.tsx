'use client'

import { useState } from 'react'
import { useCanLocate } from './use-here'

/** Fills one field with the device's position, "44.15012, -121.30211". Not there where the device knows none. */
export function HereAsOne({ field, words }: { field: string; words: string }) {
  const can = useCanLocate()
  const [says, setSays] = useState('')
  if (!can) return null
  const fill = () => {
    setSays('Looking for the position…')
    navigator.geolocation.getCurrentPosition(
      ({ coords }) => {
        const input = document.getElementById(field)
        if (input instanceof HTMLInputElement)
          input.value = `${coords.latitude.toFixed(5)}, ${coords.longitude.toFixed(5)}`
        setSays('Filled in. Press Show.')
      },
      () => setSays('This device cannot tell where it is now. Type a place instead.'),
      { maximumAge: 60_000, timeout: 20_000 },
    )
  }
  return (
    <>
      <button type="button" className="button button-quiet" onClick={fill}>
        {words}
      </button>
      <span role="status">{says}</span>
    </>
  )
}
