'use client'

import { useEffect, useState } from 'react'

/**
 * Keeps the screen on while `wanted`, where the browser can; true while it does. The clock does not need it: it counts
 * from an instant, and runs on while the screen sleeps.
 */
export function useWakeLock(wanted: boolean): boolean {
  const [on, setOn] = useState(false)
  useEffect(() => {
    if (!wanted || !('wakeLock' in navigator)) return
    let lock: WakeLockSentinel | null = null
    let left = false
    const ask = async () => {
      if (left || document.visibilityState !== 'visible') return
      // Refused on a low battery and the like: then the screen sleeps as ever, and nothing says otherwise.
      const got = await navigator.wakeLock.request('screen').catch(() => null)
      if (left) return void got?.release()
      lock = got
      setOn(got !== null)
      got?.addEventListener('release', () => setOn(false))
    }
    void ask()
    document.addEventListener('visibilitychange', ask)
    return () => {
      left = true
      document.removeEventListener('visibilitychange', ask)
      setOn(false)
      void lock?.release()
    }
  }, [wanted])
  return on
}
