import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { testSetting } from '@/lib/records/well-tests'
import { ChooseTest } from './choose-test'

export const metadata: Metadata = { title: 'Run a test' }

/** Which test to run, with what each takes and tells. */
export default async function ChooseTestPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await deskViewer()
  const setting = testSetting(await getDb(), viewer, wellId)
  if (!setting) notFound()
  return (
    <>
      <PageHead title={`Run a test at ${setting.label}`} lead={setting.name ?? undefined}>
        <Link className="button button-quiet" href={paths.tests(wellId)} prefetch={false}>
          Tests so far
        </Link>
        <Link className="button button-quiet" href={paths.well(wellId)} prefetch={false}>
          Back to the well
        </Link>
      </PageHead>
      <ChooseTest wellId={wellId} />
    </>
  )
}
