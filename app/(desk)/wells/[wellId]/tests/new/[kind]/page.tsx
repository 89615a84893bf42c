import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { unitSymbols } from '@/lib/domain/quantity'
import { span } from '@/lib/domain/yield/tests/result'
import { TEST_KINDS } from '@/lib/forms/test/draft'
import { TEST_WORDS } from '@/lib/forms/test/words'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { type TestSetting, testSetting } from '@/lib/records/well-tests'
import { saveTest } from './actions'
import { TestForm } from './test-form'

export const metadata: Metadata = { title: 'Run a test' }

type Props = { params: Promise<{ wellId: string; kind: string }> }

/** One test of one well, on the phone at the pit or typed in from paper. */
export default async function NewTestPage({ params }: Props) {
  const { wellId, kind: asked } = await params
  const viewer = await deskViewer()
  const setting = testSetting(await getDb(), viewer, wellId)
  const kind = TEST_KINDS.find((one) => one === asked)
  if (!setting || !kind) notFound()
  return (
    <>
      <PageHead
        title={`${TEST_WORDS[kind].title} at ${setting.label}`}
        lead={[setting.name, TEST_WORDS[kind].what].filter(Boolean).join('. ')}
      >
        <Link className="button button-quiet" href={paths.newTest(wellId)} prefetch={false}>
          Another test
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <TestForm
        kind={kind}
        action={saveTest.bind(null, wellId, kind)}
        draftKey={`test-${kind}-${wellId}`}
        visitId={newId()}
        day={today()}
        by={viewer.name}
        symbols={unitSymbols(viewer.units)}
        units={viewer.units}
        well={setting.well}
        restHint={restHint(setting, (day) => showDay(day, viewer.units))}
      />
    </>
  )
}

/**
 * How long the pump should be off before the level counts as at rest. After five time constants less than a hundredth
 * of a drawdown is left (exp(−5) = 0.7 %). Two readings that agree: common practice, no published source.
 */
function restHint({ lastRecovery }: TestSetting, show: (day: string) => string): string {
  const enough = lastRecovery
    ? `Pump off at least ${span(5 * lastRecovery.timeConstantS)} before, by the recovery of ${show(lastRecovery.on)}.`
    : 'Pump off overnight before, where it can be.'
  return `${enough} It is at rest when two readings ten minutes apart agree.`
}
