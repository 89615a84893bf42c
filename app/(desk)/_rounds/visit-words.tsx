import { Status } from '@/app/ui/status'
import { visitDaysWords } from '@/lib/domain/place'

type Wishes = {
  visitFrom: string | null
  visitUntil: string | null
  visitDays: string | null
  gateCode: string | null
  hazards: string | null
}

/** What whoever goes there must know at the gate: when, with which code, and what to beware of. */
export function VisitWords({ well }: { well: Wishes }) {
  const wish = [visitDaysWords(well.visitDays), hoursWords(well.visitFrom, well.visitUntil)].filter(Boolean)
  return (
    <>
      {wish.length > 0 ? <p>Owner’s wish: {wish.join(', ')}.</p> : null}
      {well.gateCode ? <p>Gate code: {well.gateCode}</p> : null}
      {well.hazards ? (
        <p>
          <Status tone="watch">Beware: {well.hazards}</Status>
        </p>
      ) : null}
    </>
  )
}

type Told = {
  notBefore: string | null
  doneBy: string | null
  onlyOn: string | null
  gateCode: string | null
  hazards: string | null
  note: string | null
}

/** The same of a planned stop, with the hours as they were when it was planned and the planner's note. */
export function StopWords({ stop }: { stop: Told }) {
  const { notBefore, doneBy, onlyOn, gateCode, hazards, note } = stop
  return (
    <>
      <VisitWords well={{ visitFrom: notBefore, visitUntil: doneBy, visitDays: onlyOn, gateCode, hazards }} />
      {note ? <p>Note: {note}</p> : null}
    </>
  )
}

/** "not before 10:00, done by 16:00"; '' where the owner does not mind. */
export function hoursWords(from: string | null, until: string | null): string {
  return [from ? `not before ${from}` : '', until ? `done by ${until}` : ''].filter(Boolean).join(', ')
}
