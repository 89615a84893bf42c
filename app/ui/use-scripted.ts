'use client'

import { useSyncExternalStore } from 'react'

const never = () => () => undefined

/**
 * Whether script has taken over this page: what only script can do is not shown before, so that no press is swallowed.
 * False on the server and for good where there is no script.
 */
export function useScripted(): boolean {
  return useSyncExternalStore(
    never,
    () => true,
    () => false,
  )
}
