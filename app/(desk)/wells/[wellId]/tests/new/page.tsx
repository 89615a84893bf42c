import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { deskViewer } from '@/app/ui/session'
import { TEST_KINDS } from '@/lib/forms/test/draft'
import { TEST_WORDS } from '@/lib/forms/test/words'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { testSetting } from '@/lib/records/well-tests'

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
      <ul className="plain-list stack">
        {TEST_KINDS.map((kind) => (
          <li key={kind} className="sheet stack-tight">
            <h2>{TEST_WORDS[kind].title}</h2>
            <p>{TEST_WORDS[kind].what}.</p>
            <p className="muted">{TEST_WORDS[kind].needs}</p>
            <p>
              <Link className="button" href={paths.newTest(wellId, kind)} prefetch={false}>
                Run a {TEST_WORDS[kind].title.toLowerCase()}
              </Link>
            </p>
          </li>
        ))}
      </ul>
      <p className="text muted">
        Open pits, wet ladders and electricity can kill. Switch off and lock the supply before reaching into
        the pit, never go down alone, and leave electrical work to those licensed for it; local codes come
        first.
      </p>
    </>
  )
}
