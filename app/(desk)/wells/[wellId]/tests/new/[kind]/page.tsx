import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { unitSymbols } from '@/lib/domain/quantity'
import { TEST_KINDS, testDraftKey } from '@/lib/forms/test/draft'
import { TEST_WORDS } from '@/lib/forms/test/words'
import { paths } from '@/lib/paths'
import { newId } from '@/lib/records/ids'
import { getDb } from '@/lib/records/open'
import { testSetting } from '@/lib/records/well-tests'
import { saveTest } from './actions'
import { restHint } from './rest-hint'
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
  const { label, well } = setting
  const { userId, units } = viewer
  const draftKey = testDraftKey(kind, wellId, userId)
  return (
    <>
      <PageHead
        title={`${TEST_WORDS[kind].title} at ${label}`}
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
        about={{ user: userId, wellId, label, units, draftKey, written: { kind: 'test', test: kind } }}
        visitId={newId()}
        day={today()}
        by={viewer.name}
        symbols={unitSymbols(units)}
        restHint={restHint(setting.lastRecovery, (day) => showDay(day, units))}
        {...{ draftKey, units, well }}
      />
    </>
  )
}
