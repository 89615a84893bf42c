'use client'

import { useCallback, useEffect, useRef, useState } from 'react'
import { v7 } from 'uuid'
import { DRAFT_PREFIX } from '@/app/ui/keep-draft'
import {
  draftFrom,
  emptyDraft,
  reduceTest,
  type TestAct,
  type TestDraft,
  type TestKind,
} from '@/lib/forms/test/draft'

export type KeptTest = {
  draft: TestDraft
  /** True once what is on screen was written to this device and read back; false where the device refuses. */
  kept: boolean
  /** Something from an earlier opening was put back. */
  restored: boolean
  /** Grows when the draft came from elsewhere (storage, another tab), so that plain fields are shown anew. */
  edition: number
}

/**
 * A test kept on this device through reload, sleep and a dead battery. Every act is put on top of what the device
 * holds at that moment, so that two open tabs lose nothing of each other.
 *
 * Answer  null until the page has come alive: until then the plain form stands.
 */
export function useTestDraft(
  storageKey: string,
  kind: TestKind,
  typedBefore: () => Readonly<Record<string, string>>,
): { test: KeptTest | null; act: (act: TestAct) => void; discard: () => void } {
  const key = DRAFT_PREFIX + storageKey
  const [test, setTest] = useState<KeptTest | null>(null)
  const latest = useRef<TestDraft | null>(null)
  const early = useRef(typedBefore)

  useEffect(() => {
    const show = (draft: TestDraft, kept: boolean, restored: boolean) => {
      latest.current = draft
      setTest((before) => ({ draft, kept, restored, edition: (before?.edition ?? 0) + 1 }))
    }
    const found = draftFrom(read(key))
    const typed = withTyped(kind, found ?? emptyDraft(v7()), early.current())
    if (typed === found || Object.keys(typed.fields).length + typed.readings.length === 0)
      show(typed, found !== null, found !== null)
    else show(typed, write(key, typed), found !== null)
    const fromOtherTab = (event: StorageEvent) => {
      const there = event.key === key ? draftFrom(event.newValue) : null
      if (there) show(there, true, false)
    }
    window.addEventListener('storage', fromOtherTab)
    return () => window.removeEventListener('storage', fromOtherTab)
  }, [key, kind])

  const act = useCallback(
    (what: TestAct) => {
      const base = draftFrom(read(key)) ?? latest.current
      if (!base) return
      const draft = reduceTest(base, what)
      const kept = write(key, draft)
      latest.current = draft
      setTest((before) => ({
        draft,
        kept,
        restored: false,
        edition: (before?.edition ?? 0) + (what.type === 'start' ? 1 : 0),
      }))
    },
    [key],
  )
  const discard = () => {
    localStorage.removeItem(key)
    location.reload()
  }
  return { test, act, discard }
}

/** Rows of a recovery or drawdown are readings of the clock; everything else, steps too, is a plain field. */
export const isReading = (kind: TestKind, name: string) =>
  kind !== 'step' && /^(elapsed|level)\d+$/.test(name)

/** What was typed into the plain form before the page came alive goes on top of what was kept. */
function withTyped(kind: TestKind, draft: TestDraft, typed: Readonly<Record<string, string>>): TestDraft {
  const rows = new Set<number>()
  let next = draft
  for (const [name, text] of Object.entries(typed)) {
    if (isReading(kind, name)) rows.add(Number(/\d+$/.exec(name)?.[0]))
    else next = reduceTest(next, { type: 'field', name, text })
  }
  for (const row of [...rows].sort((a, b) => a - b)) {
    const [elapsed, level] = [typed[`elapsed${row}`] ?? '', typed[`level${row}`] ?? '']
    if (elapsed || level) next = reduceTest(next, { type: 'row', elapsed, level })
  }
  return next
}

function read(key: string): string | null {
  try {
    return localStorage.getItem(key)
  } catch {
    // Storage switched off: nothing was kept, and the page says that nothing is.
    return null
  }
}

/** True only when what the device holds afterwards is what was written. */
function write(key: string, draft: TestDraft): boolean {
  const text = JSON.stringify(draft)
  try {
    localStorage.setItem(key, text)
    return localStorage.getItem(key) === text
  } catch {
    return false
  }
}
