import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import { sentence } from '@/lib/domain/logbook/wear-words'
import type { PrimeStanding } from '@/lib/domain/pump'
import { daysShown, formatQuantity, type UnitSystem } from '@/lib/domain/quantity'

const WORDS: Record<PrimeStanding['lookAt'], { tone: Tone; word: string }> = {
  valve: { tone: 'watch', word: 'Look at the check valve' },
  joints: { tone: 'watch', word: 'Look at the suction joints' },
  'fresh-work': { tone: 'note', word: 'Look at the work just done' },
  watch: { tone: 'note', word: 'Lost once' },
  nothing: { tone: 'unsure', word: 'None recorded' },
}

/** Losses of prime with the check valve in place, what they point to, and how to test the valve. */
export function Prime({ prime, units }: { prime: PrimeStanding; units: UnitSystem }) {
  const { tone, word } = WORDS[prime.lookAt]
  return (
    <section aria-labelledby="prime" className="stack-tight">
      <h2 id="prime">Prime and check valve</h2>
      <p>
        <Status tone={tone}>{word}</Status>
      </p>
      <p className="text">{sentence(daysShown(prime.why, units))}</p>
      {prime.losses.length > 0 ? (
        <p className="text">Lost on {prime.losses.map((on) => showDay(on, units)).join('; ')}.</p>
      ) : null}
      {prime.test ? (
        <p className="text">
          Last test of the check valve, {showDay(prime.test.on, units)}:{' '}
          {formatQuantity(prime.test.beforePa, 'pressure', units)} at once,{' '}
          {formatQuantity(prime.test.afterPa, 'pressure', units)} after{' '}
          {formatQuantity(prime.test.heldS, 'minutes', units)}. {prime.test.verdict.says}
        </p>
      ) : (
        <p className="text">The check valve in place was never tested by the gauge.</p>
      )}
      <p className="muted text">
        To test the valve: stop the pump with the taps closed, read the gauge at once and again after ten
        minutes, and enter both on the visit form. A valve that holds barely moves it. The 5 psi from which it
        is said to leak are a well contractor’s advice; no standard was seen.
      </p>
    </section>
  )
}
