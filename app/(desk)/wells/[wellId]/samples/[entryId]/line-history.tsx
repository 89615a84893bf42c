import { showDay } from '@/app/ui/show-day'
import type { HistoryStep, LogLine } from '@/lib/domain/logbook/history'
import type { UnitSystem } from '@/lib/domain/quantity/format'

const WORDS: Readonly<Record<HistoryStep['kind'], string>> = {
  written: 'Written',
  corrected: 'Corrected',
  withdrawn: 'Withdrawn',
  restored: 'Restored',
}

/** Who wrote the sheet down, and what became of it since. */
export function LineHistory({ line, units }: { line: LogLine; units: UnitSystem }) {
  return (
    <section className="stack" aria-labelledby="history">
      <h2 id="history">History of this sheet</h2>
      <ol className="log-history">
        {line.history.map((step) => (
          <li key={step.id}>
            {WORDS[step.kind]}
            {step.by ? ` by ${step.by}` : ''}, taken in on {showDay(step.recordedAt.slice(0, 10), units)}.
            {'reason' in step ? ` Reason: ${step.reason}` : ''}
            {step.stands ? '' : ' (taken back since)'}
            {'fact' in step && step.fact.kind === 'sample' && line.history.length > 1
              ? ` ${step.fact.results.length} rows: ${step.fact.results.map((row) => [row.analyte, row.result, row.unit].filter(Boolean).join(' ')).join('; ')}`
              : ''}
          </li>
        ))}
      </ol>
    </section>
  )
}
