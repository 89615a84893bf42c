import { useEffect, useMemo } from 'react'
import { v7 } from 'uuid'
import { SheetFields } from '@/app/(desk)/wells/[wellId]/samples/new/sheet-fields'
import { SheetLists } from '@/app/(desk)/wells/[wellId]/samples/new/sheet-lists'
import { ChainBanner } from '@/app/ui/chain-banner'
import { PageHead } from '@/app/ui/page-head'
import { todayIn } from '@/lib/clock'
import { unitSymbols } from '@/lib/domain/quantity'
import type { PhoneWell } from '@/lib/exchange/phone/shape'
import { intentOf, readSheet, type SheetReading } from '@/lib/forms/sheet/read-sheet'
import { unitLists } from '@/lib/forms/sheet/units'
import { paths } from '@/lib/paths'
import { KeptOnPhone } from '../kept-on-phone'
import type { QueuedVisit } from '../store'
import { words } from '../take-along'
import type { Person } from '../taken'
import { SheetPhotos } from './sheet-photos'
import { useKeeping } from './use-keeping'

type Props = { who: Person; well: PhoneWell; zone: string; takenAt: string; mend?: QueuedVisit }

/** A lab sheet without signal: the form of the office, read and asked about by the same rules, with a photo of the paper. */
export function OfflineSheet({ who, well, zone, takenAt, mend }: Props) {
  const visitId = useMemo(() => mend?.id ?? v7(), [mend])
  const { lists, of } = useMemo(() => unitLists(), [])
  useEffect(() => {
    document.title = `Lab sheet for ${well.label} – Wellround`
  }, [well])
  const { id: wellId, label } = well
  const units = mend?.units ?? well.units
  const draftKey = mend ? `mend-${mend.id}` : `sheet-${wellId}`
  const about = { user: who.id, wellId, label, units, draftKey, written: { kind: 'sheet' as const } }
  const today = todayIn(zone, Date.now())
  const read = (typed: Record<string, string>) =>
    readSheet(typed, intentOf(typed.intent), { wellId, today, system: units })
  const sending = useKeeping(about, mend, read, {
    refills: true,
    first: () => (mend ? asRead(mend.typed, read) : {}),
  })
  return (
    <>
      <ChainBanner wellId={wellId} chains={well.chains} units={well.units} linked={false} />
      <PageHead
        title={`Lab sheet for ${label}${well.name ? `, ${well.name}` : ''}`}
        lead="Copy it as the laboratory wrote it: <1, ND, Absent, >2419.6, 0.05 J."
      >
        <a className="button button-quiet" href={paths.well(wellId)}>
          Back to the well
        </a>
      </PageHead>
      <p className="muted">
        From what is on this phone, last updated {words(takenAt)}. Doubtful rows are asked about here. What
        the sheet says about the water is reckoned when it is sent: until then it changes nothing, no banner
        and no due date.
      </p>
      {sending.kept ? (
        <KeptOnPhone says={sending.kept} wellId={wellId} another={false} />
      ) : (
        <>
          <SheetLists lists={lists} />
          <SheetFields
            {...{ draftKey, visitId, sending }}
            by={who.name}
            temperatureUnit={unitSymbols(units).temperature}
            unitListOf={of}
            photo={<SheetPhotos />}
          />
        </>
      )}
    </>
  )
}

/** How the rows of a sheet that waits read, with the answers that were given about them. */
function asRead(typed: Record<string, string>, read: (typed: Record<string, string>) => SheetReading) {
  const reading = read({ ...typed, intent: 'check' })
  return reading.ok ? {} : { ...reading, done: '' }
}
