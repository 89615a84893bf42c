'use client'

import { useState } from 'react'
import { type Fix, sayStep, type Way, wayFromHere } from '@/lib/domain/place'
import type { UnitSystem } from '@/lib/domain/quantity'
import { type Compass, useCompass } from './use-compass'
import { type Here, useCanLocate, useHere } from './use-here'

type Props = { target: Fix; declinationDeg: number | null; units: UnitSystem }

/** Distance, direction and an arrow from where this device stands; says how far they can be trusted. */
export function FromHere({ target, declinationDeg, units }: Props) {
  const can = useCanLocate()
  const [on, setOn] = useState(false)
  const watching = useHere(on)
  const { compass, start } = useCompass(on)
  if (!can) return null
  const here = watching.kind === 'here' ? watching.here : null
  return (
    <div className="from-here no-print">
      <button
        type="button"
        className="button"
        aria-pressed={on}
        onClick={() => {
          if (!on) start()
          setOn(!on)
        }}
      >
        {on ? 'Stop' : 'Show the way from where I stand'}
      </button>
      <div role="status">
        {watching.kind === 'waiting' ? 'Looking for the position…' : null}
        {watching.kind === 'failed' ? watching.says : null}
        {here ? (
          <Shown way={wayFromHere(here, target, declinationDeg, units)} {...{ here, compass, units }} />
        ) : null}
      </div>
    </div>
  )
}

function Shown({ way, here, compass, units }: { way: Way; here: Here; compass: Compass; units: UnitSystem }) {
  const good = sayStep(Math.max(here.accuracyM, 0.3), units)
  // Also where nobody knows how good the recorded place is, a device leads no closer than its own error.
  const close = way.near || way.distanceM <= here.accuracyM
  return (
    <div className="stack-tight">
      <p className="find-way">{way.words}</p>
      {compass.kind === 'heading' && way.trueDeg !== null && !close ? (
        <Arrow turn={(way.compassDeg ?? way.trueDeg) - compass.degrees} />
      ) : null}
      <p>
        This device is good to ±{good}:{' '}
        {close ? 'it can bring you no closer.' : 'within that, use the tapes.'}
      </p>
      <p className="muted small">
        {way.northNote} {compassWords(compass)}
      </p>
    </div>
  )
}

function Arrow({ turn }: { turn: number }) {
  const degrees = Math.round(turn)
  return (
    <svg className="find-arrow" viewBox="-50 -50 100 100" role="img" aria-label="Arrow to the head">
      <circle className="find-ring" r="46" />
      <path className="find-needle" d="M0 -40 20 24 0 12 -20 24Z" transform={`rotate(${degrees})`} />
    </svg>
  )
}

function compassWords(compass: Compass): string {
  switch (compass.kind) {
    case 'off':
      return ''
    case 'none':
      return 'This device shows no compass direction: turn by the sun, a map or a hand compass.'
    case 'refused':
      return 'The compass of this device was not allowed: go by the direction in words.'
    case 'heading':
      return 'The arrow follows the compass of the device: hold it level, away from iron and the truck.'
  }
}
