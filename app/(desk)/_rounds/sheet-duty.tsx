import type { ReactNode } from 'react'
import { partsHint } from '@/lib/domain/upkeep/truck'

/** A duty on paper: a box to tick, what it is and why, and what to take along. */
export function SheetDuty({ dutyKey, children }: { dutyKey: string; children: ReactNode }) {
  const parts = partsHint(dutyKey)
  return (
    <li className="sheet-item">
      <span className="tick" aria-hidden="true" />
      <div>
        {children}
        {parts.length > 0 ? (
          <>
            {' '}
            <div className="muted">Take along: {parts.join(', ')}</div>
          </>
        ) : null}
      </div>
    </li>
  )
}
