'use client'

import { useCallback, useEffect, useState } from 'react'
import { Status } from '@/app/ui/status'
import { countUnsent, onChanged } from './queue'
import { type Person, person, setPerson } from './taken'

type Seen = { own: number; others: number; online: boolean }

/**
 * On every page of the desk: whether there is signal, and how many records of this phone are not sent yet. Sends them
 * when the page opens and when the signal returns. Without script it is not there, and nothing waits on the phone.
 *
 * `who` is signed in; null in pages shown without the server, which ask the phone.
 */
export function PhoneMark({ who, register = true }: { who: Person | null; register?: boolean }) {
  const user = who?.id ?? null
  const name = who?.name ?? ''
  const [seen, setSeen] = useState<Seen>({ own: 0, others: 0, online: true })

  const look = useCallback(async () => {
    try {
      const id = user ?? (await person())?.id ?? null
      const counts = id ? await countUnsent(id) : { own: 0, others: 0 }
      setSeen({ ...counts, online: navigator.onLine })
      return id !== null && counts.own > 0 ? id : null
    } catch {
      // This browser keeps nothing (a private window): then nothing waits here either.
      setSeen({ own: 0, others: 0, online: navigator.onLine })
      return null
    }
  }, [user])

  useEffect(() => {
    const begin = async (eager: boolean) => {
      if (user) await setPerson({ id: user, name }).catch(() => undefined)
      const id = await look()
      if (id && navigator.onLine) await sendFor(id, eager)
    }
    const online = () => void begin(true)
    const offline = () => void look()
    // A page that the server has just made shows that it is reached: what waits out a failure need not wait longer.
    void begin(user !== null)
    if (register) void startWorker()
    const timer = setInterval(() => void begin(false), 60_000)
    const stop = onChanged(() => void look())
    window.addEventListener('online', online)
    window.addEventListener('offline', offline)
    return () => {
      clearInterval(timer)
      stop()
      window.removeEventListener('online', online)
      window.removeEventListener('offline', offline)
    }
  }, [user, name, register, look])

  return (
    <div className="phone-mark no-print" aria-live="polite">
      {seen.online ? null : <Status tone="note">Offline</Status>}
      {seen.own > 0 ? <a href="/unsent">{seen.own} not sent yet</a> : null}
    </div>
  )
}

async function sendFor(user: string, eager: boolean): Promise<void> {
  try {
    const { sendAll } = await import('./send')
    await sendAll(user, eager)
  } catch {
    // The part that sends could not be loaded, for want of signal: the next page, or the next minute, tries again.
  }
}

/** The worker that shows pages without signal. Where the browser has none (an address without https), all else still works. */
async function startWorker(): Promise<void> {
  if (process.env.NODE_ENV !== 'production' || !('serviceWorker' in navigator)) return
  try {
    await navigator.serviceWorker.register('/sw.js', { updateViaCache: 'none' })
  } catch {
    // No signal while the page was still opening: the worker of last time goes on.
  }
}
