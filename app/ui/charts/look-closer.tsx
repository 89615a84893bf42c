'use client'

import dynamic from 'next/dynamic'
import { useState } from 'react'
import { useScripted } from '@/app/ui/use-scripted'
import type { CloserSeries } from './closer-series'

const CloserChart = dynamic(() => import('./closer-chart'), {
  ssr: false,
  loading: () => <p className="muted">Loading …</p>,
})

/**
 * A button that brings the chart whose values can be read off one by one; nothing of it is loaded before. Without script it
 * is not there, and the table beside the chart says the same.
 */
export function LookCloser(props: {
  title: string
  series: readonly CloserSeries[]
  unit: string
  downwards: boolean
  along: string | null
}) {
  const [open, setOpen] = useState(false)
  const { title, ...chart } = props
  if (!useScripted()) return null
  return (
    <div className="no-print">
      <button
        type="button"
        className="button button-quiet"
        aria-expanded={open}
        onClick={() => setOpen(!open)}
      >
        {open ? 'Put it away' : 'Read off values'}
        <span className="unseen">: {title}</span>
      </button>
      {open ? <CloserChart {...chart} /> : null}
    </div>
  )
}
