'use client'

import { useEffect } from 'react'
import { DRAFT_PREFIX } from '@/app/ui/keep-draft'
import { draftFrom } from '@/lib/forms/test/draft'

/** Removes the draft of the test that was saved, and no other: a new test may have been begun at this well since. */
export function DropTest({ storageKey, visitId }: { storageKey: string; visitId: string }) {
  useEffect(() => {
    const key = DRAFT_PREFIX + storageKey
    if (draftFrom(localStorage.getItem(key))?.visitId === visitId) localStorage.removeItem(key)
  }, [storageKey, visitId])
  return null
}
