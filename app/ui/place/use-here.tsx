'use client'

import { useEffect, useState, useSyncExternalStore } from 'react'

export type Here = { latitude: number; longitude: number; accuracyM: number; at: number }

export type Watching =
  | { kind: 'off' }
  | { kind: 'waiting' }
  | { kind: 'here'; here: Here }
  /** One sentence with what to do. */
  | { kind: 'failed'; says: string }

const never = () => () => {}

/** Whether this device can tell where it is; false on the server and without script. */
export function useCanLocate(): boolean {
  return useSyncExternalStore(
    never,
    () => 'geolocation' in navigator,
    () => false,
  )
}

/** The position of this device while `on`, as it changes. Nothing is asked for before. */
export function useHere(on: boolean): Watching {
  const [watching, setWatching] = useState<Watching>({ kind: 'off' })
  useEffect(() => {
    if (!on) {
      setWatching({ kind: 'off' })
      return
    }
    setWatching({ kind: 'waiting' })
    const id = navigator.geolocation.watchPosition(
      ({ coords, timestamp }) =>
        setWatching({
          kind: 'here',
          here: {
            latitude: coords.latitude,
            longitude: coords.longitude,
            accuracyM: coords.accuracy,
            at: timestamp,
          },
        }),
      (error) => setWatching({ kind: 'failed', says: whyNot(error) }),
      { enableHighAccuracy: true, maximumAge: 2000, timeout: 30_000 },
    )
    return () => navigator.geolocation.clearWatch(id)
  }, [on])
  return watching
}

function whyNot(error: GeolocationPositionError): string {
  if (error.code === error.PERMISSION_DENIED)
    return 'This page may not know where the device is. Allow the position for this site in the browser, or go by tapes and landmarks.'
  if (error.code === error.TIMEOUT)
    return 'No position yet. Step out from under trees and walls, and try again.'
  return 'This device cannot tell where it is now. Go by tapes and landmarks.'
}
