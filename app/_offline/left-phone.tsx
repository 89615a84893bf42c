'use client'

import { useEffect } from 'react'
import { forgetPerson } from './taken'

/** Whoever has just left takes what was taken along with them. What is not sent they were told of, or it waits for them. */
export function LeftPhone() {
  useEffect(() => {
    // A browser that keeps nothing has nothing to forget.
    forgetPerson().catch(() => undefined)
  }, [])
  return null
}
