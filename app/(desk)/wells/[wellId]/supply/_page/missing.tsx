import { Status } from '@/app/ui/status'

/** Why nothing can be said of the year, and all that is missing for it. */
export function Missing({ missing }: { missing: readonly string[] }) {
  return (
    <section aria-labelledby="missing" className="stack-tight">
      <h2 id="missing">How long the water lasts</h2>
      <p>
        <Status tone="unsure">Cannot say</Status>
      </p>
      <p>What is missing:</p>
      <ul>
        {missing.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
    </section>
  )
}
