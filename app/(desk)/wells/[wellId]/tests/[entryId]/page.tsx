import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { testReadings, testResult } from '@/lib/domain/logbook/test-result'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { testDraftKey } from '@/lib/forms/test/draft'
import { findings } from '@/lib/forms/test/findings'
import { kindOf, TEST_WORDS } from '@/lib/forms/test/words'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { getOutfit } from '@/lib/records/settings'
import { testReport } from '@/lib/records/well-tests'
import { testCurve } from '../_result/curve'
import { CurvePicture } from '../_result/curve-picture'
import { Says } from '../_result/says'
import { BuiltSection } from './_report/built'
import { Changes, Stands } from './_report/changes'
import { ClassicalSection } from './_report/classical'
import { DropTest } from './_report/drop-test'
import { InflowSection } from './_report/inflow'
import { ReadingsSection } from './_report/readings'
import { SupplySection } from './_report/supply'

export const metadata: Metadata = { title: 'Test report' }

type Props = { params: Promise<{ wellId: string; entryId: string }>; searchParams: Promise<Params> }

/** One test as it was read and what it says, on a page that prints. */
export default async function TestReportPage({ params, searchParams }: Props) {
  const { wellId, entryId } = await params
  const viewer = await deskViewer()
  const db = await getDb()
  const report = testReport(db, viewer, wellId, entryId)
  if (!report) notFound()
  const { well, test, pumped, low } = report
  const saved = textParam(await searchParams, 'saved') === report.visitId
  const units = viewer.units
  const readings = testReadings(test.fact)
  const result = testResult(readings, well)
  const found = findings(readings, result, units)
  const kind = kindOf(test.fact)
  const outfit = getOutfit(db)
  return (
    <>
      {saved ? (
        <p className="done no-print" role="status">
          <DropTest storageKey={testDraftKey(kind, wellId, viewer.userId)} visitId={report.visitId} />
          <strong>
            Saved: {test.fact.kind === 'step-test' ? 'the steps' : 'every reading'} of the test.
          </strong>
        </p>
      ) : null}
      <PageHead
        title={`${TEST_WORDS[kind].title}: ${well.label}`}
        lead={[
          [well.name, well.area].filter(Boolean).join(', '),
          `${showDay(test.on, units)}${test.time ? `, ${test.time}` : ''}${test.by ? `, by ${test.by}` : ''}`,
          [outfit.name, outfit.contact].filter(Boolean).join(', '),
        ]
          .filter(Boolean)
          .join(' · ')}
      >
        <PrintButton />
        <Link className="button button-quiet" href={paths.tests(wellId)} prefetch={false}>
          All tests
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <Stands test={test} units={units} />
      <section aria-labelledby="result" className="stack">
        <h2 id="result">What the test says</h2>
        <Says found={found} />
        {readings.kind === 'step' ? null : (
          <CurvePicture curve={testCurve(readings, result)} units={units} says={found.says} />
        )}
      </section>
      <InflowSection result={result} units={units} />
      {result.kind === 'recovery' ? <ClassicalSection result={result} units={units} /> : null}
      <SupplySection result={result} low={low} well={well} units={units} />
      <ReadingsSection fact={test.fact} result={result} pumped={pumped} units={units} />
      <BuiltSection well={well} area={result.area} units={units} />
      <Changes test={test} units={units} />
    </>
  )
}
