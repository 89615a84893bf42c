'use client'

import { useEffect, useState } from 'react'
import { clock } from './keep-visit'
import { picturesOf } from './pictures'
import { storageRefusal } from './store'
import { take, takenList } from './taken'

type Props = {
  user: string
  /** Where the phone gets it, and under which key it keeps it. */
  from: string
  storeKey: string
  label: string
  /** "this well" or "this round". */
  what: string
}

/** Takes a well or a round along on the phone: its pages and its forms then open without signal. */
export function TakeAlong({ user, from, storeKey, label, what }: Props) {
  const [takenAt, setTakenAt] = useState<string | null>(null)
  const [says, setSays] = useState('')
  const [able, setAble] = useState(false)

  useEffect(() => {
    setAble('serviceWorker' in navigator)
    takenList(user, Date.now())
      .then((list) => setTakenAt(list.find(({ key }) => key === storeKey)?.takenAt ?? null))
      // A browser that keeps nothing has nothing: the button below says so when it is pressed.
      .catch(() => setTakenAt(null))
  }, [user, storeKey])

  const press = async () => {
    setSays('Taking it along …')
    try {
      const answer = await fetch(from, { cache: 'no-store' })
      if (!answer.ok) {
        setSays('Not taken along: the server did not hand it out. Open this page anew, then try again.')
        return
      }
      const at = new Date().toISOString()
      const data: unknown = await answer.json()
      const { pictures, missing } = await picturesOf(data)
      await take({ key: storeKey, user, label, takenAt: at, data, pictures })
      setTakenAt(at)
      setSays(`On this phone since ${clock(new Date(at))}.${missing > 0 ? missingWords(missing) : ''}`)
    } catch (error) {
      setSays(error instanceof TypeError ? 'Not taken along: there is no signal.' : storageRefusal(error))
    }
  }
  if (!able) return null
  return (
    <div className="take-along no-print">
      <button type="button" className="button button-quiet" onClick={press}>
        {takenAt ? `Refresh ${what} on this phone` : `Take ${what} with you`}
      </button>{' '}
      <span aria-live="polite">
        {says || (takenAt ? `On this phone, last updated ${words(takenAt)}.` : '')}
      </span>{' '}
      <a href="/unsent">What is on this phone</a>
    </div>
  )
}

const missingWords = (missing: number) =>
  ` ${missing} ${missing === 1 ? 'photo' : 'photos'} of marks did not come along: try again where the signal is better.`

/** "20 Nov, 14:02" where the phone is. */
export function words(at: string): string {
  const date = new Date(at)
  return `${date.toLocaleDateString('en-GB', { day: 'numeric', month: 'short' })}, ${clock(date)}`
}
