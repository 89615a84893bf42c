import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import type { UnitSystem } from '@/lib/domain/quantity'
import type { SanitaryStanding } from '@/lib/domain/water/inspection-record'
import type { Inspection } from '@/lib/domain/water/sanitary'
import type { RiskClass } from '@/lib/domain/water/tables/sanitary'
import { paths } from '@/lib/paths'
import { SampleLink } from './sample-link'

type Props = { wellId: string; sanitary: SanitaryStanding | null; units: UnitSystem }

const RISKS: Record<RiskClass, { word: string; tone: Tone }> = {
  low: { word: 'low risk', tone: 'calm' },
  intermediate: { word: 'intermediate risk', tone: 'watch' },
  high: { word: 'high risk', tone: 'alarm' },
  'very-high': { word: 'very high risk', tone: 'alarm' },
}

/** The newest sanitary inspection, its class, and what it says together with E. coli. */
export function Sanitary({ wellId, sanitary, units }: Props) {
  return (
    <section className="stack-tight" aria-labelledby="sanitary">
      <div className="group-head">
        <h2 id="sanitary">Sanitary inspection</h2>
        <Link className="no-print" href={paths.inspection(wellId)} prefetch={false}>
          New inspection
        </Link>
      </div>
      {sanitary === null ? (
        <p className="muted">
          None is on record. A look round the well says where dirt could get in, which no sample does.
        </p>
      ) : (
        <Newest wellId={wellId} sanitary={sanitary} units={units} />
      )}
    </section>
  )
}

function Newest({ wellId, sanitary, units }: Props & { sanitary: SanitaryStanding }) {
  const { inspection, risks, open, coli, combined } = sanitary
  return (
    <>
      <Score inspection={inspection} on={showDay(sanitary.on, units)} />
      <p>
        {combined.kind === 'cannot-say' ? (
          <>
            Together with E. coli: <Status tone="unsure">cannot be said</Status> ({combined.why}).
          </>
        ) : (
          <>
            Together with E. coli:{' '}
            <Status tone={RISKS[combined.risk].tone}>{RISKS[combined.risk].word}</Status>, {combined.action}.
          </>
        )}{' '}
        {coli ? (
          <SampleLink wellId={wellId} sampleId={coli.sampleId}>
            E. coli of {showDay(coli.on, units)}
          </SampleLink>
        ) : null}
      </p>
      {risks.length > 0 ? <Lines title="Risks seen" lines={risks} /> : null}
      {open.length > 0 ? <Lines title="Not sure, or not answered" lines={open} /> : null}
      <p className="muted small">
        {sanitary.form.title}. Questions, classes and matrix are from memory of the WHO form.
      </p>
    </>
  )
}

function Score({ inspection, on }: { inspection: Inspection; on: string }) {
  if (inspection.kind === 'too-few')
    return (
      <p>
        <Status tone="unsure">No score</Status>: on {on} only {inspection.have} of the {inspection.need}{' '}
        answers needed were given.
      </p>
    )
  const { low, high } = inspection.risk
  return (
    <p>
      <Status tone={RISKS[high].tone}>
        {low === high ? RISKS[high].word : `${RISKS[low].word} to ${RISKS[high].word}`}
      </Status>{' '}
      on {on}: {inspection.yes} of {inspection.asked} questions show a risk.
    </p>
  )
}

function Lines({ title, lines }: { title: string; lines: readonly string[] }) {
  return (
    <details>
      <summary>
        {title} ({lines.length})
      </summary>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </details>
  )
}
