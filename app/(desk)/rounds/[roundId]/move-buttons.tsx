import type { RoundHead, RoundStop } from '@/lib/records/rounds'
import type { Move } from '../../_rounds/order'
import { moveTo, switchLock, takeOff } from './actions'

type Props = { stop: RoundStop; round: RoundHead; moves: readonly Move[]; mayPlan: boolean }

/** Where else the stop could stand, each place with its cost before it is chosen; lock and take off. No dragging. */
export function MoveButtons({ stop, round, moves, mayPlan }: Props) {
  const near = (to: number) => moves.find((move) => move.to === to)
  const earlier = near(stop.position - 1)
  const later = near(stop.position + 1)
  const version = <input type="hidden" name="version" value={round.version} />
  const move = moveTo.bind(null, round.id, stop.id)
  const named = <span className="unseen"> ({stop.label})</span>
  return (
    <details className="section no-print">
      <summary>
        {mayPlan ? 'Move, lock or take off' : 'Move or lock'}
        <span className="unseen"> {stop.label}</span>
      </summary>
      <div className="section-body stack-tight">
        {earlier || later ? (
          <form action={move} className="row">
            {version}
            {earlier ? (
              <button type="submit" name="to" value={earlier.to} className="button button-quiet">
                One earlier: {earlier.cost}
                {named}
              </button>
            ) : null}
            {later ? (
              <button type="submit" name="to" value={later.to} className="button button-quiet">
                One later: {later.cost}
                {named}
              </button>
            ) : null}
          </form>
        ) : null}
        {moves.length > 2 ? (
          <form action={move} className="row">
            {version}
            <label className="label" htmlFor={`to-${stop.id}`}>
              Move to place
            </label>
            <select className="input" id={`to-${stop.id}`} name="to" defaultValue={moves[0]?.to}>
              {moves.map(({ to, cost }) => (
                <option key={to} value={to}>
                  {to}: {cost}
                </option>
              ))}
            </select>
            <button type="submit" className="button button-quiet">
              Move{named}
            </button>
          </form>
        ) : null}
        <div className="row">
          <form action={switchLock.bind(null, round.id, stop.id)}>
            {version}
            <button type="submit" className="button button-quiet">
              {stop.locked ? 'Free to be moved' : 'Lock in this place'}
              {named}
            </button>
          </form>
          {mayPlan ? (
            <form action={takeOff.bind(null, round.id, stop.id)}>
              {version}
              <button type="submit" className="button button-quiet">
                Take off the round{named}
              </button>
            </form>
          ) : null}
        </div>
      </div>
    </details>
  )
}
