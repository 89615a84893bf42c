import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { Matter } from '@/lib/domain/logbook/owner-matters'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import type { MatterRow } from '@/lib/records/matters'
import { saveReply } from './actions'
import { LookForms, VisitForm } from './reply-forms'

type Props = { rows: readonly MatterRow[]; units: UnitSystem; back: string; named?: boolean }

/** What is open between households and the outfit, each with what can be said to it. `named`: with its well. */
export function MatterList({ rows, units, back, named = true }: Props) {
  return (
    <ul className="plain-list stack">
      {rows.map((row) => (
        <li key={row.matter.id} className="sheet stack-tight">
          <p>
            {named ? (
              <>
                <Link href={paths.well(row.wellId)} prefetch={false}>
                  {[row.label, row.wellName].filter(Boolean).join(', ')}
                </Link>{' '}
              </>
            ) : null}
            <State matter={row.matter} units={units} />
          </p>
          <p className="text">
            {describeFact(row.matter.fact, units)}{' '}
            <span className="muted">
              {writers(row)}, {showDay(row.matter.on, units)}
            </span>
          </p>
          <Talk matter={row.matter} />
          {row.matter.fact.kind === 'sample' ? (
            <p>
              <Link href={paths.sample(row.wellId, row.matter.id)} prefetch={false}>
                What this sheet says
              </Link>
            </p>
          ) : null}
          <Reply wellId={row.wellId} matter={row.matter} back={back} />
        </li>
      ))}
    </ul>
  )
}

const unique = (name: string | null, at: number, all: (string | null)[]): name is string =>
  name !== null && all.indexOf(name) === at

function Talk({ matter }: { matter: Matter }) {
  if (matter.kind === 'visit' || matter.question === null) return null
  return (
    <dl className="facts">
      <div>
        <dt>Asked</dt>
        <dd>{matter.question}</dd>
      </div>
      {matter.answer === null ? null : (
        <div>
          <dt>Answered</dt>
          <dd>{matter.answer}</dd>
        </div>
      )}
    </dl>
  )
}

/** The two forms, or the one of a visit, with numbers made for this page. */
export function Reply({ wellId, matter, back }: { wellId: string; matter: Matter; back: string }) {
  const kind = matter.kind === 'visit' ? 'visit-answer' : 'confirmation'
  const props = {
    action: saveReply.bind(null, wellId, matter.id, kind, back),
    visitIds: [newId(), newId()] as const,
    id: matter.id,
  }
  return matter.kind === 'visit' ? (
    <VisitForm {...props} />
  ) : (
    <LookForms {...props} asked={matter.state !== 'new'} />
  )
}

const LOOKS: Record<'new' | 'queried' | 'answered', [Tone, string]> = {
  new: ['note', 'Not yet looked at'],
  queried: ['unsure', 'Waits for the household'],
  answered: ['watch', 'Answered: look again'],
}

function State({ matter, units }: { matter: Matter; units: UnitSystem }) {
  if (matter.kind === 'look') {
    const [tone, word] = LOOKS[matter.state]
    return <Status tone={tone}>{word}</Status>
  }
  if (matter.state === 'planned')
    return (
      <Status tone="note">
        {matter.promised ? `Promised for ${showDay(matter.promised, units)}` : 'Promised'}
      </Status>
    )
  return <Status tone={matter.urgent ? 'alarm' : 'watch'}>{matter.urgent ? 'Urgent' : 'Asked for'}</Status>
}

/** The person and the household. Who is of neither now wrote it before the well was sold, or has left. */
function writers({ personName, ofThisHousehold, matter, ownerName }: MatterRow): string {
  if (personName !== null && !ofThisHousehold) return `${personName}, who does not hold the well any more`
  return [personName ?? matter.byName, ownerName].filter(unique).join(', ')
}
