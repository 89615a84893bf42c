'use client'

import { useEffect, useState } from 'react'
import { stampS, type TestAct, type TestDraft, type TestKind } from '@/lib/forms/test/draft'
import { nextReadingS } from '@/lib/forms/test/schedule'
import { KeptWords } from './kept-words'
import type { Kept } from './use-test-draft'
import { useWakeLock } from './use-wake-lock'

const WORDS = {
  recovery: { start: 'Pump stopped', since: 'since the pump stopped' },
  drawdown: { start: 'Pump started', since: 'since the pump started' },
} as const

type Props = {
  kind: Exclude<TestKind, 'step'>
  draft: TestDraft
  kept: Kept
  act: (act: TestAct) => void
}

/** The clock of a test with one button for a cold, wet thumb: first it starts the clock, then it takes readings. */
export function Stopwatch({ kind, draft, kept, act }: Props) {
  const running = draft.startedAtMs !== null
  const nowMs = useNow(running)
  const awake = useWakeLock(running)
  const elapsedS = draft.startedAtMs === null ? null : Math.floor((nowMs - draft.startedAtMs) / 1000)
  const words = WORDS[kind]
  const start = () => {
    const at = new Date()
    act({ type: 'start', atMs: at.getTime(), ...localMoment(at) })
  }
  return (
    <section className="stopwatch sheet" aria-label="Stopwatch">
      {elapsedS === null ? (
        <button type="button" className="button stopwatch-button" onClick={start}>
          {words.start}: start the clock
        </button>
      ) : (
        <>
          <p className="stopwatch-time" role="timer">
            <span className="number">{clockFace(elapsedS)}</span> <span className="small">{words.since}</span>
          </p>
          <button
            type="button"
            className="button stopwatch-button"
            onClick={() => act({ type: 'tap', atMs: Date.now() })}
          >
            Take a reading now
          </button>
          <NextReading draft={draft} elapsedS={elapsedS} />
        </>
      )}
      <KeptWords kept={kept} begun={running || Object.keys(draft.fields).length > 0} />
      {awake ? <p className="small">The screen is held awake.</p> : null}
      {running && !draft.readings.some((r) => r.atMs !== null) ? (
        <button
          type="button"
          className="button button-quiet"
          onClick={() => act({ type: 'take-back-start' })}
        >
          Pressed too early: set the clock back
        </button>
      ) : null}
    </section>
  )
}

/** When the next reading is due by the usual table; said in words, so that nobody has to reckon in the rain. */
function NextReading({ draft, elapsedS }: { draft: TestDraft; elapsedS: number }) {
  const stamps = draft.readings.flatMap((r) => (r.struck ? [] : (stampS(draft, r) ?? [])))
  const dueS = nextReadingS(stamps.length > 0 ? Math.max(...stamps) : null)
  const restS = dueS - elapsedS
  return (
    <p className="small">
      {restS > 0
        ? `Next reading about ${clockFace(dueS)}, in ${restS < 120 ? `${restS} s` : `${Math.round(restS / 60)} min`}.`
        : `A reading was due at ${clockFace(dueS)}: take one now.`}
    </p>
  )
}

/** The device's clock, read each half second while it is looked at. */
function useNow(running: boolean): number {
  const [now, setNow] = useState(() => Date.now())
  useEffect(() => {
    if (!running) return
    const look = () => setNow(Date.now())
    look()
    const timer = setInterval(look, 500)
    document.addEventListener('visibilitychange', look)
    return () => {
      clearInterval(timer)
      document.removeEventListener('visibilitychange', look)
    }
  }, [running])
  return now
}

/** 95 as "1:35", 3725 as "1:02:05". */
function clockFace(seconds: number): string {
  const whole = Math.max(0, seconds)
  const two = (n: number) => String(n).padStart(2, '0')
  const hours = Math.floor(whole / 3600)
  const minutes = Math.floor((whole % 3600) / 60)
  return `${hours > 0 ? `${hours}:${two(minutes)}` : minutes}:${two(whole % 60)}`
}

/** Day and time of day as the device shows them, for the fields of the form. */
function localMoment(at: Date): { date: string; time: string } {
  const two = (n: number) => String(n).padStart(2, '0')
  return {
    date: `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`,
    time: `${two(at.getHours())}:${two(at.getMinutes())}`,
  }
}
