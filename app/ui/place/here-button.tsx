'use client'

import { useEffect, useState } from 'react'
import { formatNumber, fromSi, type UnitSystem, unitSymbol } from '@/lib/domain/quantity'
import { type Here, useCanLocate, useHere } from './use-here'

type Props = {
  /** Ids of the fields that are filled in. */
  latitude: string
  longitude: string
  accuracy?: string
  words: string
  units: UnitSystem
}

/**
 * Fills a position's fields from the device, and says how good it is while it gets better. Without script, or on a
 * device that knows no position, it is not there: the fields are typed.
 */
export function HereButton({ latitude, longitude, accuracy, words, units }: Props) {
  const can = useCanLocate()
  const [on, setOn] = useState(false)
  const watching = useHere(on)
  const here = watching.kind === 'here' ? watching.here : null

  useEffect(() => {
    if (!here) return
    put(latitude, here.latitude.toFixed(6))
    put(longitude, here.longitude.toFixed(6))
    if (accuracy) put(accuracy, sayAccuracy(here, units))
  }, [here, latitude, longitude, accuracy, units])

  if (!can) return null
  return (
    <div className="stack-tight">
      <div className="row">
        <button type="button" className="button button-quiet" onClick={() => setOn(!on)} aria-pressed={on}>
          {on ? 'Keep this position' : words}
        </button>
      </div>
      <div role="status" className={on ? 'done' : undefined}>
        {watching.kind === 'waiting' ? 'Looking for the position…' : null}
        {watching.kind === 'failed' ? watching.says : null}
        {here
          ? `The device says it is good to ±${sayAccuracy(here, units)}. Hold it still over the spot until the number stops falling, then keep it.`
          : null}
      </div>
    </div>
  )
}

/** "9 m", "30 ft": the figure of a device is no better than a whole metre or foot. */
function sayAccuracy({ accuracyM }: Here, units: UnitSystem): string {
  const unit = units === 'metric' ? 'm' : 'ft'
  return `${formatNumber(Math.max(1, Math.ceil(fromSi(accuracyM, unit))), 0, 0).replaceAll(',', '')} ${unitSymbol(unit)}`
}

function put(id: string, value: string): void {
  const field = document.getElementById(id)
  if (!(field instanceof HTMLInputElement) || field.value === value) return
  field.value = value
  // The draft of the form is kept on every input.
  field.dispatchEvent(new Event('input', { bubbles: true }))
}
