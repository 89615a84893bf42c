'use client'

import { useCallback, useEffect, useRef, useState } from 'react'
import { dropMarks, keepMarks, marksOf } from '@/app/_offline/marks'
import { DRAFT_PREFIX } from '@/app/ui/keep-draft'
import {
  draftFrom,
  newerDraft,
  reduceTest,
  type TestAct,
  type TestDraft,
  type TestKind,
} from '@/lib/forms/test/draft'

/** `writing`: on its way to the disk. `no`: the device refuses, or nothing was done yet. */
export type Kept = 'yes' | 'writing' | 'no'

export type KeptTest = {
  draft: TestDraft
  /** Whether what is on screen is on the disk of this device. */
  kept: Kept
  /** Something from an earlier opening was put back. */
  restored: boolean
  /** Grows when the draft came from elsewhere (storage, another tab), so that plain fields are shown anew. */
  edition: number
}

/**
 * A test kept on this device through reload, sleep and a dead battery. Every act is put on top of what the device
 * holds at that moment, so that two open tabs lose nothing of each other.
 *
 * Two copies: one in localStorage, which is there at once for a reload or another tab, and one written through to the
 * disk, which a dead battery does not take. Only the second counts as kept; the newer one is put back.
 *
 * Shape   `begin` makes the draft where none is kept; `typedBefore` is what stands in the plain form when the page comes alive.
 * Answer  null until the page has come alive: until then the plain form stands.
 */
export function useTestDraft(
  storageKey: string,
  kind: TestKind,
  begin: () => TestDraft,
  typedBefore: () => Readonly<Record<string, string>>,
): { test: KeptTest | null; act: (act: TestAct) => void; discard: () => void } {
  const key = DRAFT_PREFIX + storageKey
  const [test, setTest] = useState<KeptTest | null>(null)
  const latest = useRef<TestDraft | null>(null)
  const early = useRef({ begin, typedBefore })

  const told = useCallback((draft: TestDraft, kept: Kept) => {
    // What was done since then is on its way by itself.
    if (latest.current === draft) setTest((before) => before && { ...before, kept })
  }, [])
  const keep = useCallback(
    (draft: TestDraft) => {
      latest.current = draft
      write(key, draft)
      keepMarks(key, JSON.stringify(draft)).then(
        () => told(draft, 'yes'),
        () => told(draft, 'no'),
      )
    },
    [key, told],
  )

  useEffect(() => {
    let left = false
    const show = (draft: TestDraft, kept: Kept, restored: boolean) => {
      latest.current = draft
      setTest((before) => ({ draft, kept, restored, edition: (before?.edition ?? 0) + 1 }))
    }
    const open = async () => {
      const marks = await marksOf(key).catch(() => null)
      if (left) return
      const found = newerDraft(draftFrom(marks), draftFrom(read(key)))
      const { begin, typedBefore } = early.current
      const draft = withTyped(kind, found ?? begin(), typedBefore())
      const blank = Object.keys(draft.fields).length + draft.readings.length === 0
      show(draft, blank ? 'no' : 'writing', found !== null)
      if (!blank) keep(draft)
    }
    void open()
    const fromOtherTab = (event: StorageEvent) => {
      const there = event.key === key ? draftFrom(event.newValue) : null
      if (!there) return
      show(there, 'writing', false)
      // The other tab has begun to write it through: what is read here comes after that.
      marksOf(key).then(
        (marks) => told(there, newerDraft(draftFrom(marks), there)?.acts === there.acts ? 'yes' : 'no'),
        () => told(there, 'no'),
      )
    }
    window.addEventListener('storage', fromOtherTab)
    return () => {
      left = true
      window.removeEventListener('storage', fromOtherTab)
    }
  }, [key, kind, keep, told])

  const act = useCallback(
    (what: TestAct) => {
      const base = newerDraft(draftFrom(read(key)), latest.current)
      if (!base || !latest.current) return
      const draft = reduceTest(base, what)
      setTest((before) => ({
        draft,
        kept: 'writing',
        restored: false,
        edition: (before?.edition ?? 0) + (what.type === 'start' ? 1 : 0),
      }))
      keep(draft)
    },
    [key, keep],
  )
  const discard = async () => {
    // Where the browser keeps no marks there are none to remove.
    await dropMarks(key).catch(() => undefined)
    localStorage.removeItem(key)
    location.reload()
  }
  return { test, act, discard }
}

/** Rows of a recovery or drawdown are readings of the clock; everything else, steps too, is a plain field. */
export const isReading = (kind: TestKind, name: string) =>
  kind !== 'step' && /^(elapsed|level)\d+$/.test(name)

/** What was typed into the plain form before the page came alive goes on top of what was kept. */
export function withTyped(
  kind: TestKind,
  draft: TestDraft,
  typed: Readonly<Record<string, string>>,
): TestDraft {
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

/** The copy for a reload. Where the browser refuses it, the other one has to do. */
function write(key: string, draft: TestDraft): void {
  try {
    localStorage.setItem(key, JSON.stringify(draft))
  } catch {
    // A full or forbidden storage: nothing claims by this copy that something is kept.
  }
}
