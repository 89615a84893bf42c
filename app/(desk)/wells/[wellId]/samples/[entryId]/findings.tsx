import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { rankOfFinding } from '@/lib/domain/water/finding-order'
import type { Finding, SampleVerdict, ShownLimit } from '@/lib/domain/water/verdict-types'

type Props = { verdict: SampleVerdict; units: UnitSystem }

/** Each number with its word and its reason; the limit with edition and source one tap away, and in full on paper. */
export function Findings({ verdict, units }: Props) {
  const findings = [...verdict.findings].sort((a, b) => rankOfFinding(a) - rankOfFinding(b))
  return (
    <section className="stack" aria-labelledby="numbers">
      <h2 id="numbers">Number by number</h2>
      <ul className="plain-list findings">
        {findings.map((finding) => (
          <li key={keyOf(finding)} className="finding">
            <FindingRow finding={finding} units={units} />
          </li>
        ))}
      </ul>
      {verdict.notTested.length > 0 ? (
        <p className="text">
          <strong>Not tested, or without a result, and needed:</strong> {verdict.notTested.join(', ')}.
        </p>
      ) : null}
    </section>
  )
}

function FindingRow({ finding, units }: { finding: Finding; units: UnitSystem }) {
  const { name, measured, limit, why, cautions, later } = finding
  return (
    <>
      <div className="finding-head">
        <h3>{name}</h3>
        <Status tone={toneOf(finding)}>{wordOf(finding)}</Status>
      </div>
      <p>
        {measured && measured.typed !== '' ? (
          <>
            <strong>{measured.typed}</strong>
            {readAs(measured)}:{' '}
          </>
        ) : null}
        {why}.
      </p>
      {cautions.map((caution) => (
        <p key={caution} className="muted">
          Note: {caution}.
        </p>
      ))}
      {later ? (
        <p>
          A stricter limit of {later.max} {later.unit} holds from {showDay(later.from, units)}: this result
          would not be known to meet it.
        </p>
      ) : null}
      {limit ? (
        <>
          <details className="limit no-print">
            <summary>
              Limit and source{limit.seen === 'memory' ? ' (from memory)' : ''}
              <span className="unseen"> for {name}</span>
            </summary>
            <LimitWords limit={limit} finding={finding} units={units} />
          </details>
          <div className="print-only">
            <LimitWords limit={limit} finding={finding} units={units} />
          </div>
        </>
      ) : null}
    </>
  )
}

const KIND_WORDS: Readonly<Record<ShownLimit['kind'], string>> = {
  health: 'limit for health',
  action: 'action level for health',
  advisory: 'health advisory',
  aesthetic: 'limit for taste, colour or stains',
}

function LimitWords({ limit, finding, units }: { limit: ShownLimit; finding: Finding; units: UnitSystem }) {
  return (
    <div className="stack-tight muted">
      <p>
        {limit.local ? 'Local ' : ''}
        {KIND_WORDS[limit.kind]}: {limit.min === null ? '' : `at least ${limit.min}, `}at most {limit.max}{' '}
        {limit.unit}
        {limit.basis ? ` (${limit.basis})` : ''}
        {finding.decides ? '' : '. It does not decide the verdict on the sample'}.
      </p>
      <p>
        {limit.source}
        {limit.section ? `, ${limit.section}` : ''} ({limit.date});{' '}
        {limit.local
          ? 'typed in by the installer'
          : limit.seen === 'seen'
            ? `read in the source${limit.via ? ` (by way of ${limit.via})` : ''}`
            : 'from memory, to be confirmed'}
        {limit.status ? `; ${limit.status}` : ''}
        {limit.from ? `; in force from ${showDay(limit.from, units)}` : ''}
        {limit.until ? `; until ${showDay(limit.until, units)}` : ''}.
      </p>
    </div>
  )
}

/** What was written, in the unit in which it is judged, where that reads differently. */
function readAs({ low, high, unit, typed }: NonNullable<Finding['measured']>): string {
  if (typed === `${low} ${unit}` || !/\d/.test(typed)) return ''
  if (low === high) return `, read as ${low} ${unit}`
  return high === null ? `, read as ${low} ${unit} or more` : `, read as ${low} to ${high} ${unit}`
}

function wordOf({ verdict, decides }: Finding): string {
  if (verdict === 'exceeds') return decides ? 'Above the limit' : 'Above a level that does not decide'
  if (verdict === 'meets') return 'Meets this limit'
  if (verdict === 'inconclusive') return 'Inconclusive'
  return verdict === 'no-limit' ? 'No limit here' : 'Not tested'
}

function toneOf({ verdict, decides }: Finding): Tone {
  if (verdict === 'exceeds') return decides ? 'alarm' : 'watch'
  if (verdict === 'meets') return 'calm'
  return verdict === 'inconclusive' ? 'watch' : verdict === 'no-limit' ? 'note' : 'unsure'
}

const keyOf = ({ analyte, name, limit, reason }: Finding) =>
  [analyte, name, reason, limit?.kind, limit?.source, limit?.max, limit?.basis].join('|')
