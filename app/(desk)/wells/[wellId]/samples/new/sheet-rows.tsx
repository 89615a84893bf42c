'use client'

import { type KeyboardEvent, type MouseEvent, type ReactNode, useEffect, useRef, useState } from 'react'
import { flushSync } from 'react-dom'
import { KeepDraft, readDraft } from '@/app/ui/keep-draft'
import { rowsOf } from '@/lib/forms/sheet/rows'
import { SheetRowFields } from './sheet-row'
import type { SheetState } from './sheet-state'

type Props = {
  state: SheetState
  unitListOf: Readonly<Record<string, string>>
  draftKey: string
  more: ReactNode
}

/**
 * The rows of results. With script: Enter goes on to the next row, and past the last one adds another, as Tab does out of a last
 * row in which something stands. Without script the button brings more rows.
 */
export function SheetRows({ state, unitListOf, draftKey, more }: Props) {
  const given = rowsOf(state.typed)
  const [added, setAdded] = useState(0)
  const [ready, setReady] = useState(false)
  const list = useRef<HTMLOListElement>(null)
  const count = Math.max(given.length, added)

  // Rows that a kept draft holds must stand before the draft is put back into them.
  useEffect(() => {
    setAdded(Number(readDraft(draftKey).rows ?? '0') || 0)
    setReady(true)
  }, [draftKey])

  const focusRow = (row: number) => {
    const cells = list.current?.querySelectorAll<HTMLInputElement>(`[data-row="${row}"] input`)
    const blank = [...(cells ?? [])].find((cell) => cell.value === '')
    ;(blank ?? cells?.[0])?.focus()
  }
  const addRow = () => {
    flushSync(() => setAdded(count + 1))
    focusRow(count + 1)
  }
  const onKeyDown = (event: KeyboardEvent) => {
    const row = rowOf(event.target)
    if (row === null || event.nativeEvent.isComposing) return
    if (event.key === 'Enter') {
      event.preventDefault()
      if (row >= count) addRow()
      else focusRow(row + 1)
    }
    if (event.key === 'Tab' && !event.shiftKey && row >= count && isLastFilledCell(event.target)) {
      event.preventDefault()
      addRow()
    }
  }
  const onMore = (event: MouseEvent) => {
    if (!(event.target instanceof HTMLButtonElement)) return
    event.preventDefault()
    addRow()
  }
  return (
    <section className="stack" aria-labelledby="results">
      {ready ? <KeepDraft formId="sheet" storageKey={draftKey} /> : null}
      <h2 id="results">Results</h2>
      <p className="hint">
        A row without a result was simply not tested. Enter goes to the next row. The reporting limit is the
        least that the laboratory could see: without it, &quot;not detected&quot; says little.
      </p>
      <input type="hidden" name="rows" value={count} />
      <div className="lab-head" aria-hidden="true">
        <span>Tested for</span>
        <span>Result</span>
        <span>Unit</span>
        <span>Reporting limit</span>
        <span>Qualifier</span>
        <span>Method</span>
      </div>
      <ol className="lab-rows" ref={list} onKeyDown={onKeyDown}>
        {Array.from({ length: count }, (_, i) => i + 1).map((n) => (
          <SheetRowFields key={n} n={n} state={state} row={given[n - 1]} unitListOf={unitListOf} />
        ))}
      </ol>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: catches the press of the button inside, which works without script */}
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: as above, and a button turns keys into clicks */}
      <div className="row" onClick={onMore}>
        {more}
      </div>
    </section>
  )
}

function rowOf(target: EventTarget): number | null {
  const row =
    target instanceof HTMLInputElement ? target.closest('[data-row]')?.getAttribute('data-row') : null
  return row && target instanceof HTMLInputElement && target.type === 'text' ? Number(row) : null
}

/** Whether Tab would leave a row in which something stands: an empty last row lets the keyboard out. */
function isLastFilledCell(target: EventTarget): boolean {
  if (!(target instanceof HTMLInputElement)) return false
  const cells = [
    ...(target.closest('[data-row]')?.querySelectorAll<HTMLInputElement>('.lab-cell input') ?? []),
  ]
  return cells.at(-1) === target && cells.some((cell) => cell.value !== '')
}
