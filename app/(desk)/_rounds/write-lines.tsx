/** What most visits read; each gets a line to write on. */
const READINGS = [
  'Hour meter',
  'Volume meter',
  'Level at rest',
  'Level pumping',
  'Flow',
  'Pressure before / after',
  'Amps / volts',
]

/** Lines to write on with a pen: the readings, a note, what else is `asked`, and who was there. */
export function WriteLines({ asked = [] }: { asked?: readonly string[] }) {
  return (
    <div className="write">
      {READINGS.map((reading) => (
        <div key={reading} className="write-line">
          <span>{reading}</span>
        </div>
      ))}
      {['Note', ...asked, 'Done by, date and time'].map((line) => (
        <div key={line} className="write-line write-wide">
          <span>{line}</span>
        </div>
      ))}
    </div>
  )
}
