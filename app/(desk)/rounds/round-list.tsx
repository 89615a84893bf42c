import Link from 'next/link'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import type { UnitSystem } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import type { RoundLine } from '@/lib/records/rounds'
import { OUTCOME_WORDS, ROUND_STATUS } from '../_rounds/words'

type Props = { id: string; title: string; rounds: readonly RoundLine[]; units: UnitSystem }

/** Rounds of one status; nothing where there are none. */
export function RoundList({ id, title, rounds, units }: Props) {
  if (rounds.length === 0) return null
  return (
    <section aria-labelledby={id} className="stack-tight">
      <h2 id={id}>
        {title} <span className="muted">({rounds.length})</span>
      </h2>
      <ul className="plain-list stack">
        {rounds.map((round) => (
          <li key={round.id} className="sheet stack-tight">
            <p className="here">
              <Link href={paths.round(round.id)} prefetch={false}>
                <strong>{round.name}</strong>
              </Link>
              <span>{showDay(round.day, units)}</span>
              <Status tone={ROUND_STATUS[round.status].tone}>{ROUND_STATUS[round.status].word}</Status>
            </p>
            <p className="muted">{summary(round)}</p>
          </li>
        ))}
      </ul>
    </section>
  )
}

function summary(round: RoundLine): string {
  const driver = round.assignedTo ? round.assignedTo.name : 'nobody named'
  const stops = `${round.stops} ${round.stops === 1 ? 'stop' : 'stops'}`
  const ended = (['done', 'partly', 'not-found', 'no-access'] as const)
    .filter((outcome) => round[outcome] > 0)
    .map((outcome) => `${round[outcome]} ${OUTCOME_WORDS[outcome].toLowerCase()}`)
  const open = round.stops - round.closed
  const words = open > 0 && round.closed > 0 ? [...ended, `${open} open`] : ended
  return [driver, stops, ...words].join(' · ')
}
