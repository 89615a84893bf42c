import { useEffect } from 'react'
import { ChooseTest } from '@/app/(desk)/wells/[wellId]/tests/new/choose-test'
import { PageHead } from '@/app/ui/page-head'
import type { PhoneWell } from '@/lib/exchange/phone/shape'
import { paths } from '@/lib/paths'
import { words } from '../take-along'

/** Which test to run, without signal. */
export function OfflineTests({ well, takenAt }: { well: PhoneWell; takenAt: string }) {
  useEffect(() => {
    document.title = `Run a test at ${well.label} – Wellround`
  }, [well])
  return (
    <>
      <PageHead title={`Run a test at ${well.label}`} lead={well.name ?? undefined}>
        <a className="button button-quiet" href={paths.well(well.id)}>
          Back to the well
        </a>
      </PageHead>
      <p className="muted">
        From what is on this phone, last updated {words(takenAt)}. Earlier tests need signal.
      </p>
      <ChooseTest wellId={well.id} />
    </>
  )
}
