const TAP = [
  'Tap or point',
  'Day and time filled',
  'Water temperature',
  'Chlorine left (mg/L)',
  'Weather, last rain',
  'Filled by',
]
const HANDS = [
  'Handed over by, day and time',
  'Taken in by, day and time',
  'Temperature on arrival',
  'Test begun, day and time',
]

/** Lines to write on: what was filled, and through whose hands it went. */
export function CustodyLines({ bottles }: { bottles: number }) {
  return (
    <section className="stack-tight" aria-labelledby="custody">
      <h2 id="custody">From hand to hand</h2>
      <p>{bottles === 1 ? 'One bottle' : `${bottles} bottles`}, counted on leaving and on arrival.</p>
      <div className="write">
        {[...TAP, ...HANDS].map((line) => (
          <div key={line} className="write-line">
            <span>{line}</span>
          </div>
        ))}
        <div className="write-line write-wide">
          <span>Laboratory and sample numbers</span>
        </div>
        <div className="write-line write-wide">
          <span>Note</span>
        </div>
      </div>
    </section>
  )
}
