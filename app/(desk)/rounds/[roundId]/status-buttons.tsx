import { lengthText } from '@/lib/domain/place'
import type { RoundHead, RoundStop } from '@/lib/records/rounds'
import { OUTCOME_WORDS } from '../../_rounds/words'
import { setStatus } from './actions'

/** Where the round stands, and the one step onward. */
export function StatusButtons({ round, stops }: { round: RoundHead; stops: readonly RoundStop[] }) {
  const open = stops.filter((stop) => stop.outcome === null).length
  return (
    <>
      <span>{stopWords(stops, open)}</span>
      {round.outAt && round.closedAt && between(round.outAt, round.closedAt) >= 60 ? (
        <span className="muted">on the road for {lengthText(between(round.outAt, round.closedAt))}</span>
      ) : null}
      {round.status === 'planned' ? (
        <form action={setStatus.bind(null, round.id, 'out')} className="no-print">
          <button type="submit" className="button">
            Start the round
          </button>
        </form>
      ) : null}
      {round.status === 'out' ? (
        <form action={setStatus.bind(null, round.id, 'closed')} className="no-print">
          <button type="submit" className={open > 0 ? 'button button-quiet' : 'button'}>
            {open > 0 ? `Close the round with ${open} open` : 'Close the round'}
          </button>
        </form>
      ) : null}
    </>
  )
}

const between = (from: string, to: string) => (Date.parse(to) - Date.parse(from)) / 1000

function stopWords(stops: readonly RoundStop[], open: number): string {
  const counts = (['done', 'partly', 'not-found', 'no-access'] as const)
    .map((outcome) => ({ outcome, n: stops.filter((stop) => stop.outcome === outcome).length }))
    .filter(({ n }) => n > 0)
    .map(({ outcome, n }) => `${n} ${OUTCOME_WORDS[outcome].toLowerCase()}`)
  const total = `${stops.length} ${stops.length === 1 ? 'stop' : 'stops'}`
  return [total, ...counts, ...(open > 0 && counts.length > 0 ? [`${open} open`] : [])].join(' · ')
}
