'use client'

import { useCallback, useEffect, useState } from 'react'

/** `degrees`: which way the top of the screen points, clockwise from compass north. */
export type Compass =
  | { kind: 'off' }
  | { kind: 'none' }
  | { kind: 'refused' }
  | { kind: 'heading'; degrees: number }

/** Some phones ask first, and give the heading under a name of their own. */
type AskingEvent = { requestPermission?: () => Promise<'granted' | 'denied'> }
type OwnHeading = { webkitCompassHeading?: number }

const PATIENCE_MS = 4000

/**
 * The compass of the device while `on`. `start` must be called within a tap: phones that ask do so only then. A device
 * that turns but does not know north counts as none.
 */
export function useCompass(on: boolean): { compass: Compass; start: () => void } {
  const [compass, setCompass] = useState<Compass>({ kind: 'off' })

  const start = useCallback(() => {
    if (typeof DeviceOrientationEvent === 'undefined') return
    const { requestPermission } = DeviceOrientationEvent as unknown as AskingEvent
    requestPermission?.call(DeviceOrientationEvent).then(
      (answer) => answer === 'denied' && setCompass({ kind: 'refused' }),
      () => setCompass({ kind: 'refused' }),
    )
  }, [])

  useEffect(() => {
    if (!on) {
      setCompass({ kind: 'off' })
      return
    }
    const hear = (event: Event) => {
      const degrees = headingOf(event as DeviceOrientationEvent & OwnHeading)
      if (degrees !== null) setCompass({ kind: 'heading', degrees })
    }
    const silent = setTimeout(
      () => setCompass((now) => (now.kind === 'off' ? { kind: 'none' } : now)),
      PATIENCE_MS,
    )
    for (const name of ['deviceorientationabsolute', 'deviceorientation']) window.addEventListener(name, hear)
    return () => {
      clearTimeout(silent)
      for (const name of ['deviceorientationabsolute', 'deviceorientation'])
        window.removeEventListener(name, hear)
    }
  }, [on])

  return { compass, start }
}

/** Source: W3C Device Orientation: alpha counts against the clock from north, seen from above, if `absolute`. */
function headingOf(event: DeviceOrientationEvent & OwnHeading): number | null {
  const turned = screen.orientation?.angle ?? 0
  if (typeof event.webkitCompassHeading === 'number') return full(event.webkitCompassHeading + turned)
  return event.absolute && event.alpha !== null ? full(360 - event.alpha + turned) : null
}

const full = (degrees: number) => ((degrees % 360) + 360) % 360
