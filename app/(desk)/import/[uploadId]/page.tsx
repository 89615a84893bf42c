import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { readImportQuery } from '@/lib/exchange/import-query'
import { dryRun } from '@/lib/exchange/plan'
import { suggestMapping } from '@/lib/exchange/suggest'
import { readTable } from '@/lib/exchange/table'
import { openUpload } from '@/lib/exchange/uploads'
import { paths } from '@/lib/paths'
import { dataFolder, getDb } from '@/lib/records/open'
import { CheckedFile } from './checked-file'
import { MappingForm } from './mapping-form'
import { SheetChoice } from './sheet-choice'

export const metadata: Metadata = { title: 'Columns of the file' }

type Props = {
  params: Promise<{ uploadId: string }>
  searchParams: Promise<Record<string, string | string[] | undefined>>
}

/** Asks what each column is, shows what importing would do, and only then offers to do it. */
export default async function MappingPage({ params, searchParams }: Props) {
  const { uploadId } = await params
  const viewer = await deskViewer()
  await demand(viewer, 'import.run')
  const opened = await openUpload(dataFolder(), viewer, uploadId)
  if (!opened) notFound()
  const asked = await searchParams
  const query = readImportQuery(asked)
  const reading = await readTable(opened.bytes, query.choice)
  const head = (
    <PageHead title="Columns of the file" lead={opened.upload.fileName}>
      <Link className="button button-quiet" href={paths.imports()} prefetch={false}>
        Choose another file
      </Link>
    </PageHead>
  )
  if (reading.kind === 'refused') {
    return (
      <>
        {head}
        <p className="error" role="alert">
          {reading.message}
        </p>
      </>
    )
  }
  if (reading.kind === 'choose-sheet') {
    return (
      <>
        {head}
        <SheetChoice sheets={reading.sheets} kind={query.kind} />
      </>
    )
  }
  const { table } = reading
  const suggestion = suggestMapping(table, query.kind)
  const mapping = query.mapping ?? suggestion.mapping
  const run = await dryRun(
    await getDb(),
    viewer,
    { fileName: opened.upload.fileName, fileSha256: opened.upload.sha256, table },
    query.kind,
    mapping,
    query.answers,
    { createMissingWells: query.createMissingWells, updateExisting: query.updateExisting, today: today() },
  )
  return (
    <>
      {head}
      {table.notices.map((notice) => (
        <p key={notice} className="muted text">
          {notice}
        </p>
      ))}
      {query.check ? <CheckedFile run={run} query={query} uploadId={uploadId} asked={asked} /> : null}
      <MappingForm
        table={table}
        query={query}
        mapping={mapping}
        samples={suggestion.samples}
        questions={run.questions}
      />
    </>
  )
}
