import { CONTACT, DUG_WELL_DOUBTS, RETEST } from '@/lib/domain/water/tables/disinfection'

/** What published guides doubt about chlorine in dug wells: beside the calculator, always. */
export function Doubts() {
  return (
    <section className="sheet" aria-labelledby="doubts">
      <h2 id="doubts">Does chlorine help a dug well?</h2>
      <p>
        Not for long where surface water gets in. Look for the way in first: cap, seal, joints, drainage,
        setback. These guides doubt it for wide dug wells:
      </p>
      <ul>
        {DUG_WELL_DOUBTS.map((doubt) => (
          <li key={doubt.text}>
            {doubt.text} ({doubt.source}, {doubt.date})
          </li>
        ))}
      </ul>
    </section>
  )
}

/** The order of the work; the cautions above hold for every step. */
const ORDER: readonly string[] = [
  'Tell everyone not to use the water, and put a note on the taps. Let water be drawn for the day before you start.',
  'Bypass or take out filters and softener. Power off. Clean the well head; look for the way in.',
  'Mix the product into a bucket of clean water, and pour it round the well. Wash the walls with it.',
  'Run water from the well through a clean hose back into it for an hour or so, until all of it smells of chlorine.',
  'Open each tap, hot and cold, until you smell chlorine; then close it. Dose the tank with its own share.',
  'Let it stand for the whole time. Nobody uses the water.',
  'Flush through an outside tap, on to ground where nothing is hurt: not into the septic system, a stream, a pond or a garden. Then the taps inside.',
  'Test that the chlorine is gone. Put filters back, new ones where they are old.',
]

export function FlushSteps() {
  return (
    <section className="stack-tight" aria-labelledby="order">
      <h2 id="order">The order of the work</h2>
      <p className="muted">
        Common practice, no published source for the order; times and days by the guides named.
      </p>
      <ol>
        {ORDER.map((line) => (
          <li key={line}>{line}</li>
        ))}
        <li>
          Use the water as usual, without drinking it, for{' '}
          {RETEST.map(({ days, source }) => `${days} days (${source})`).join(' or ')}; then sample.
        </li>
      </ol>
      <p className="muted">
        Standing times in the guides: {CONTACT.map(({ text, source }) => `${text} (${source})`).join('; ')}.
      </p>
    </section>
  )
}
