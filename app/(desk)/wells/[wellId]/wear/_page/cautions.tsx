/** What can hurt somebody at this work: above everything else on the page, on paper too. */
const CAUTIONS: readonly string[] = [
  'Electricity: switch off, lock out and prove dead before any cover of pump, motor or controller is opened. Panels give full voltage in any light. Leave wiring to a licensed electrician where the code says so.',
  'Lifting: a drop pipe full of water and a pump are heavy. Two people, or a hoist, with nobody under the load.',
  'Pits and well heads: never climb into one alone or untested. Air without oxygen gives no warning. Confined-space rules of your place come first.',
  'Pressure: let it off before a housing or a joint is opened.',
]

export function Cautions() {
  return (
    <section className="cautions stack-tight" aria-labelledby="cautions">
      <h2 id="cautions">Before you open anything</h2>
      <ul>
        {CAUTIONS.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  )
}
