import { useEffect, useMemo } from 'react'
import { v7 } from 'uuid'
import { CloseStop } from '@/app/(desk)/_rounds/close-stop'
import { NotReachedFields } from '@/app/(desk)/rounds/[roundId]/stops/[stopId]/not-reached-fields'
import { PageHead } from '@/app/ui/page-head'
import { todayIn } from '@/lib/clock'
import type { PhoneRound, PhoneStop } from '@/lib/exchange/phone/shape'
import { readNotReached } from '@/lib/forms/round-closing'
import type { About } from '../keep-visit'
import { KeptOnPhone } from '../kept-on-phone'
import type { QueuedVisit } from '../store'
import { words } from '../take-along'
import type { Person } from '../taken'
import { useKeeping } from './use-keeping'

type StopProps = { who: Person; round: PhoneRound; stop: PhoneStop; zone: string; takenAt: string }

/** How a stop ended, without signal: the page of the office, with the form that keeps what is written on the phone. */
export function OfflineStop({ who, round, stop, zone, takenAt }: StopProps) {
  useEffect(() => {
    document.title = `Close the stop at ${stop.label} – Wellround`
  }, [stop])
  const chains = round.wells.find(({ id }) => id === stop.wellId)?.chains ?? []
  const { wellId, label } = stop
  const draftKey = `stop-${stop.id}`
  return (
    <CloseStop
      {...{ round, stop, chains }}
      units={round.units}
      linked={false}
      note={<p className="muted">From what is on this phone, last updated {words(takenAt)}.</p>}
    >
      <NotReached
        about={{ user: who.id, wellId, label, units: round.units, draftKey, roundId: round.id }}
        stopId={stop.id}
        by={who.name}
        zone={zone}
      />
    </CloseStop>
  )
}

/** A closing that waits on the phone, in the form that it was written on; the round itself need not be there any more. */
export function MendNotReached({
  who,
  mend,
  roundId,
}: {
  who: Person
  mend: QueuedVisit
  roundId: string | undefined
}) {
  useEffect(() => {
    document.title = `Close the stop at ${mend.label} – Wellround`
  }, [mend])
  const { wellId, label, units } = mend
  return (
    <>
      <PageHead title={`Close the stop at ${label}`} />
      <NotReached
        about={{ user: who.id, wellId, label, units, draftKey: `mend-${mend.id}`, roundId }}
        stopId={mend.stopId ?? ''}
        by={who.name}
        zone={Intl.DateTimeFormat().resolvedOptions().timeZone}
        mend={mend}
      />
    </>
  )
}

type FormProps = { about: About; stopId: string; by: string; zone: string; mend?: QueuedVisit }

function NotReached({ about, stopId, by, zone, mend }: FormProps) {
  const visitId = useMemo(() => mend?.id ?? v7(), [mend])
  const day = todayIn(zone, Date.now())
  const sending = useKeeping(about, mend, (typed) =>
    readNotReached(typed, about.wellId, new Date().toISOString(), day),
  )
  const { done } = sending.state
  if (done) return <KeptOnPhone says={done} wellId={about.wellId} roundId={about.roundId} />
  return <NotReachedFields draftKey={about.draftKey} {...{ stopId, visitId, day, by, sending }} />
}
