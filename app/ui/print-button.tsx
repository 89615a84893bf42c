'use client'

import { useScripted } from './use-scripted'

/** Opens the browser's print dialog. Without script it is not there: the browser's own menu prints as well. */
export function PrintButton() {
  if (!useScripted()) return null
  return (
    <button className="button" type="button" onClick={() => window.print()}>
      Print
    </button>
  )
}
