import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import { daysShown, sentence } from '@/lib/domain/logbook/wear-words'
import type { PrimeStanding } from '@/lib/domain/pump'
import type { UnitSystem } from '@/lib/domain/quantity'

const WORDS: Record<PrimeStanding['lookAt'], { tone: Tone; word: string }> = {
  valve: { tone: 'watch', word: 'Look at the check valve' },
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
      <p className="muted text">
        To test the valve: stop the pump with the taps closed, read the gauge at once and again after ten
        minutes, and write both down in a note. A valve that holds barely moves it.
      </p>
    </section>
  )
}
