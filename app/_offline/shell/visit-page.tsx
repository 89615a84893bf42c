import { useEffect, useMemo } from 'react'
import { v7 } from 'uuid'
import type { StopToClose } from '@/app/(desk)/_rounds/stop-to-close'
import { VisitFields } from '@/app/(desk)/wells/[wellId]/visit/visit-fields'
import { visitWords } from '@/app/(desk)/wells/[wellId]/visit/visit-words'
import { ChainBanner } from '@/app/ui/chain-banner'
import { PageHead } from '@/app/ui/page-head'
import { todayIn } from '@/lib/clock'
import type { PhoneWell } from '@/lib/exchange/phone/shape'
import { readVisit } from '@/lib/forms/visit-form'
import { paths } from '@/lib/paths'
import { KeptOnPhone } from '../kept-on-phone'
import type { QueuedVisit } from '../store'
import { words } from '../take-along'
import type { Person } from '../taken'
import { useKeeping } from './use-keeping'

type Props = {
  who: Person
  well: PhoneWell
  zone: string
  takenAt: string
  /** A record that waits already and is to be mended. */
  mend?: QueuedVisit
  stop: StopToClose | null
}

/** The visit form without signal: the same fields, read by the same rules against what the phone knows of the well. */
export function OfflineVisit({ who, well, zone, takenAt, mend, stop }: Props) {
  const visitId = useMemo(() => mend?.id ?? v7(), [mend])
  const day = todayIn(zone, Date.now())
  // A record is read in the units that it was typed in.
  const units = mend?.units ?? well.units
  const draftKey = mend ? `mend-${mend.id}` : stop ? `stop-${stop.id}` : `visit-${well.id}`
  useEffect(() => {
    document.title = `Visit to ${well.label} – Wellround`
  }, [well])

  const about = { user: who.id, wellId: well.id, label: well.label, units, draftKey, roundId: stop?.roundId }
  const sending = useKeeping(about, mend, (typed) =>
    readVisit(typed, { ...well, wellId: well.id, today: day, system: units }),
  )
  const { done } = sending.state
  return (
    <>
      <ChainBanner wellId={well.id} chains={well.chains} units={well.units} linked={false} />
      <PageHead title={`Visit to ${well.label}`} lead={well.name ?? undefined}>
        <a className="button button-quiet" href={paths.well(well.id)}>
          Back to the well
        </a>
      </PageHead>
      <p className="muted">
        From what is on this phone, last updated {words(takenAt)}. Odd readings are asked about here; some
        questions can only be asked when it is sent.
      </p>
      {done ? (
        <KeptOnPhone says={done} wellId={well.id} roundId={stop?.roundId} />
      ) : (
        <VisitFields
          draftKey={draftKey}
          visitId={visitId}
          day={day}
          by={who.name}
          stop={stop}
          models={[]}
          {...visitWords(well, day, units)}
          sending={sending}
        />
      )}
    </>
  )
}
