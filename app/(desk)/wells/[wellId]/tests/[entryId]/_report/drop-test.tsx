'use client'

import { useEffect } from 'react'
import { dropMarks, marksOf } from '@/app/_offline/marks'
import { DRAFT_PREFIX } from '@/app/ui/keep-draft'
import { draftFrom } from '@/lib/forms/test/draft'

/** Removes the draft of the test that was saved, and no other: a new test may have been begun at this well since. */
export function DropTest({ storageKey, visitId }: { storageKey: string; visitId: string }) {
  useEffect(() => {
    const key = DRAFT_PREFIX + storageKey
    const isOf = (text: string | null) => draftFrom(text)?.visitId === visitId
    const drop = async () => {
      if (isOf(await marksOf(key))) await dropMarks(key)
    }
    // The copy on the disk goes first: the other one alone would be there again after a dead battery, and sent, stored once.
    drop()
      // Where the browser keeps no marks there are none to remove.
      .catch(() => undefined)
      .then(() => {
        if (isOf(localStorage.getItem(key))) localStorage.removeItem(key)
      })
  }, [storageKey, visitId])
  return null
}
