import { type FormEvent, useEffect, useMemo, useState } from 'react'
import { v7 } from 'uuid'
import { CloseStop } from '@/app/(desk)/_rounds/close-stop'
import { NotReachedFields } from '@/app/(desk)/rounds/[roundId]/stops/[stopId]/not-reached-fields'
import { PageHead } from '@/app/ui/page-head'
import type { Asking } from '@/app/ui/with-questions'
import { todayIn } from '@/lib/clock'
import type { PhoneRound, PhoneStop } from '@/lib/exchange/phone/shape'
import { typedFields } from '@/lib/forms/form'
import { readNotReached } from '@/lib/forms/round-closing'
import { type About, askedAgain, keepVisit } from '../keep-visit'
import { KeptOnPhone } from '../kept-on-phone'
import type { QueuedVisit } from '../store'
import { words } from '../take-along'
import type { Person } from '../taken'

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
    <CloseStop round={round} stop={stop} chains={chains} units={round.units} linked={false}>
      <p className="muted">From what is on this phone, last updated {words(takenAt)}.</p>
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

const FRESH: Asking = { typed: {}, errors: {}, questions: {} }

type FormProps = { about: About; stopId: string; by: string; zone: string; mend?: QueuedVisit }

function NotReached({ about, stopId, by, zone, mend }: FormProps) {
  const [state, setState] = useState<Asking>(mend ? askedAgain(mend, mend.typed) : FRESH)
  const [pending, setPending] = useState(false)
  const visitId = useMemo(() => mend?.id ?? v7(), [mend])
  const day = todayIn(zone, Date.now())
  const onSubmit = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    if (pending) return
    const form = new FormData(event.currentTarget)
    const typed = typedFields(form)
    const reading = readNotReached(typed, about.wellId, new Date().toISOString(), day)
    if (!reading.ok) {
      setState({ typed, errors: reading.errors, questions: {} })
      return
    }
    setPending(true)
    setState(await keepVisit(form, about))
    setPending(false)
  }
  if (state.done) return <KeptOnPhone says={state.done} wellId={about.wellId} roundId={about.roundId} />
  return (
    <NotReachedFields
      draftKey={about.draftKey}
      {...{ stopId, visitId, day, by }}
      sending={{ state, pending, form: { onSubmit } }}
    />
  )
}
