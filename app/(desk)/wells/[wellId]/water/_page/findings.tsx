import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { DatedFinding } from '@/lib/domain/water/appraise'
import type { ShownLimit } from '@/lib/domain/water/verdict-types'
import { SampleLink } from './sample-link'

type Props = { findings: readonly DatedFinding[]; wellId: string; units: UnitSystem }

const TONES: Record<DatedFinding['verdict'], Tone> = {
  exceeds: 'alarm',
  inconclusive: 'watch',
  'not-tested': 'unsure',
  meets: 'calm',
  'no-limit': 'note',
}

const WORDS: Record<DatedFinding['verdict'], string> = {
  exceeds: 'above its limit',
  inconclusive: 'cannot be said',
  'not-tested': 'not tested',
  meets: 'meets its limit',
  'no-limit': 'no limit',
}

/** The newest finding of each analyte: what stands out in full, what met its limit folded away. */
export function Findings({ findings, wellId, units }: Props) {
  if (findings.length === 0) return null
  const out = findings.filter(({ verdict }) => verdict === 'exceeds' || verdict === 'inconclusive')
  const rest = findings.filter((finding) => !out.includes(finding))
  return (
    <section className="stack-tight" aria-labelledby="findings">
      <h2 id="findings">The newest finding of each</h2>
      {out.length > 0 ? (
        <FindingTable rows={out} label="Above a limit, or cannot be said" wellId={wellId} units={units} />
      ) : (
        <p>Nothing tested last stands above a limit or is inconclusive.</p>
      )}
      {rest.length > 0 ? (
        <details>
          <summary>{rest.length} more: met a limit, without a limit, or not tested</summary>
          <FindingTable rows={rest} label="Other findings" wellId={wellId} units={units} />
        </details>
      ) : null}
    </section>
  )
}

function FindingTable({
  rows,
  label,
  wellId,
  units,
}: {
  rows: readonly DatedFinding[]
  label: string
  wellId: string
  units: UnitSystem
}) {
  return (
    <div className="table-frame">
      <table className="table table-cards">
        <caption className="unseen">{label}</caption>
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">Finding</th>
            <th scope="col">Measured</th>
            <th scope="col">Limit</th>
            <th scope="col">Sample</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((finding) => (
            <tr
              key={`${finding.analyte} ${finding.limit?.kind} ${finding.limit?.source} ${finding.limit?.basis}`}
            >
              <th scope="row">{finding.name}</th>
              <td className="why">
                <Status tone={TONES[finding.verdict]}>{WORDS[finding.verdict]}</Status>
                <p>{finding.why}</p>
                {finding.cautions.map((caution) => (
                  <p key={caution} className="muted">
                    {caution}
                  </p>
                ))}
              </td>
              <td data-label="Measured">{finding.measured?.typed ?? 'none'}</td>
              <td data-label="Limit">
                <LimitSaid limit={finding.limit} name={finding.name} />
              </td>
              <td data-label="Sample">
                <SampleLink wellId={wellId} sampleId={finding.sampleId}>
                  {showDay(finding.sampledOn, units)}
                </SampleLink>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}

/** The limit, and one tap away where it comes from. */
function LimitSaid({ limit, name }: { limit: ShownLimit | null; name: string }) {
  if (limit === null) return <>none in this scheme</>
  const range = limit.min === null ? `${limit.max}` : `${limit.min} to ${limit.max}`
  return (
    <details>
      <summary className="small-summary">
        {range} {limit.unit} ({limit.kind}
        {limit.seen === 'memory' ? ', from memory' : ''})
        <span className="unseen"> for {name}: where it comes from</span>
      </summary>
      <p>
        {[limit.source, limit.section, limit.date].filter(Boolean).join(', ')}
        {limit.local ? '; typed in by the installer' : ''}
        {limit.seen === 'memory' ? '; from memory, not yet confirmed' : ''}
        {limit.status ? `. ${limit.status}` : ''}
      </p>
    </details>
  )
}
