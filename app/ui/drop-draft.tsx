'use client'

import { useEffect } from 'react'
import { DRAFT_PREFIX } from './keep-draft'

/** Removes a draft whose form was accepted; without a key, removes every draft of this browser (at sign-out). */
export function DropDraft({ storageKey }: { storageKey?: string }) {
  useEffect(() => {
    for (const key of Object.keys(localStorage)) {
      const ours = storageKey === undefined ? key.startsWith(DRAFT_PREFIX) : key === DRAFT_PREFIX + storageKey
      if (ours) localStorage.removeItem(key)
    }
  }, [storageKey])
  return null
}
