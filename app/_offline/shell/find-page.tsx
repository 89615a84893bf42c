import { useEffect, useMemo } from 'react'
import { v7 } from 'uuid'
import { NextTries } from '@/app/(desk)/wells/[wellId]/find/next-tries'
import { SearchFields } from '@/app/(desk)/wells/[wellId]/find/search-fields'
import { PageHead } from '@/app/ui/page-head'
import { FindSheet } from '@/app/ui/place/find-sheet'
import { PrintButton } from '@/app/ui/print-button'
import { showDay } from '@/app/ui/show-day'
import { todayIn } from '@/lib/clock'
import { placeSheet } from '@/lib/domain/logbook/place-record'
import type { PhoneWell } from '@/lib/exchange/phone/shape'
import { readVisit } from '@/lib/forms/visit-form'
import { paths } from '@/lib/paths'
import { KeptOnPhone } from '../kept-on-phone'
import type { Picture } from '../store'
import { words } from '../take-along'
import type { Person } from '../taken'
import { PlacePictures } from './place-pictures'
import { useKeeping } from './use-keeping'

type Props = {
  who: Person
  well: PhoneWell
  zone: string
  takenAt: string
  pictures: readonly Picture[]
}

/** The way to a buried head as it was taken along: the sheet of the office, made anew on the phone, with its photos. */
export function OfflineFind({ who, well, zone, takenAt, pictures }: Props) {
  const { place, units, owner } = well
  const { measured, photos, earlier, lastSearch } = place
  useEffect(() => {
    document.title = `Find ${well.label} – Wellround`
  }, [well])
  const sheet = useMemo(() => {
    const { latitude, longitude } = well
    const register = latitude === null || longitude === null ? null : { latitude, longitude }
    return { ...placeSheet(measured?.fact ?? null, register, photos, units), measured, well, photos }
  }, [well, measured, photos, units])
  return (
    <>
      <PageHead
        title={`Find ${well.label}${well.name ? `, ${well.name}` : ''}`}
        lead={[owner?.name, owner?.phone, well.area].filter(Boolean).join(' · ')}
      >
        <a className="button button-quiet" href={paths.well(well.id)}>
          To the well
        </a>
        <PrintButton />
      </PageHead>
      <p className="muted">From what is on this phone, last updated {words(takenAt)}.</p>
      <p className="muted">
        {measured
          ? `As measured on ${showDay(measured.on, units)}${measured.byName ? ` by ${measured.byName}` : ''}.`
          : 'This place was never measured.'}
        {lastSearch
          ? ` Last looked for on ${showDay(lastSearch.on, units)}: ${lastSearch.found ? 'found' : 'not found'}.`
          : ''}
      </p>
      <FindSheet
        place={sheet}
        units={units}
        pictures={<PlacePictures photos={photos} pictures={pictures} />}
      />
      <section className="sheet stack no-print" aria-labelledby="outcome">
        <h2 id="outcome">Did you find it?</h2>
        <OfflineSearch {...{ who, well, zone }} />
      </section>
      <NextTries place={{ ...sheet, earlier }} open={lastSearch?.found === false} />
    </>
  )
}

function OfflineSearch({ who, well, zone }: Pick<Props, 'who' | 'well' | 'zone'>) {
  const visitId = useMemo(() => v7(), [])
  const { id: wellId, label, units } = well
  const day = todayIn(zone, Date.now())
  const about = { user: who.id, wellId, label, units, draftKey: `find-${wellId}` }
  const sending = useKeeping(about, undefined, (typed) =>
    readVisit(typed, { ...well, wellId, today: day, system: units }),
  )
  const { done } = sending.state
  if (done) return <KeptOnPhone says={done} wellId={wellId} />
  return <SearchFields by={who.name} {...{ visitId, day, sending }} />
}
