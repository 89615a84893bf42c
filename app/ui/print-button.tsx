'use client'

import { useSyncExternalStore } from 'react'

const never = () => () => {}

/** Opens the browser's print dialog. Without script it is not there: the browser's own menu prints as well. */
export function PrintButton() {
  const scripted = useSyncExternalStore(
    never,
    () => true,
    () => false,
  )
  if (!scripted) return null
  return (
    <button className="button" type="button" onClick={() => window.print()}>
      Print
    </button>
  )
}
