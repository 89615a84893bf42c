import { useEffect, useMemo } from 'react'
import { v7 } from 'uuid'
import { restHint } from '@/app/(desk)/wells/[wellId]/tests/new/[kind]/rest-hint'
import { TestFields } from '@/app/(desk)/wells/[wellId]/tests/new/[kind]/test-fields'
import { ChainBanner } from '@/app/ui/chain-banner'
import { PageHead } from '@/app/ui/page-head'
import { showDay } from '@/app/ui/show-day'
import { todayIn } from '@/lib/clock'
import { UNMEASURED_WELL } from '@/lib/domain/logbook/test-result'
import { unitSymbols } from '@/lib/domain/quantity'
import type { PhoneWell } from '@/lib/exchange/phone/shape'
import { type TestKind, testDraftKey } from '@/lib/forms/test/draft'
import { TEST_WORDS } from '@/lib/forms/test/words'
import { readTest } from '@/lib/forms/test-form'
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
  kind: TestKind
  /** A test that waits already and is to be mended, or gone on with. */
  mend?: QueuedVisit
}

/** A test without signal: the form of the office with its clock, read by the same rules, kept on the phone. */
export function OfflineTest({ who, well, zone, takenAt, kind, mend }: Props) {
  const visitId = useMemo(() => mend?.id ?? v7(), [mend])
  const { title, what } = TEST_WORDS[kind]
  useEffect(() => {
    document.title = `${title} at ${well.label} – Wellround`
  }, [title, well])
  const day = todayIn(zone, Date.now())
  // A record is read in the units that it was typed in.
  const units = mend?.units ?? well.units
  const tested = well.tested?.well ?? { ...UNMEASURED_WELL, wellDepthM: well.wellDepthM }
  const draftKey = mend ? `mend-${mend.id}-${who.id}` : testDraftKey(kind, well.id, who.id)
  const sending = useKeeping(
    {
      ...{ user: who.id, wellId: well.id, label: well.label, units, draftKey },
      written: { kind: 'test', test: kind },
    },
    mend,
    (typed) => readTest(kind, typed, { wellId: well.id, today: day, system: units, well: tested }),
  )
  return (
    <>
      <ChainBanner wellId={well.id} chains={well.chains} units={well.units} linked={false} />
      <PageHead title={`${title} at ${well.label}`} lead={[well.name, what].filter(Boolean).join('. ')}>
        <a className="button button-quiet" href={paths.newTest(well.id)}>
          Another test
        </a>
        <a className="button button-quiet" href={paths.well(well.id)}>
          Back to the well
        </a>
      </PageHead>
      <p className="muted">
        From what is on this phone, last updated {words(takenAt)}. Odd readings are asked about here. Earlier
        tests and the report need signal.
      </p>
      {well.tested ? null : (
        <p className="text">
          This well was taken along before its measures came with it: readings are kept as ever, but capacity
          is not reckoned, and fewer odd readings are asked about here. Refresh it while there is signal.
        </p>
      )}
      {sending.kept ? (
        <KeptOnPhone says={sending.kept} wellId={well.id} another={false} />
      ) : (
        <TestFields
          {...{ kind, draftKey, visitId, day, units, mend, sending }}
          by={who.name}
          symbols={unitSymbols(units)}
          well={tested}
          restHint={restHint(well.tested?.lastRecovery ?? null, (on) => showDay(on, units))}
        />
      )}
    </>
  )
}
