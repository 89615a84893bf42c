import Link from 'next/link'
import { SubmitButton } from '@/app/ui/submit-button'
import { TableFrame } from '@/app/ui/table-frame'
import type { ImportQuery } from '@/lib/exchange/import-query'
import type { DryRun } from '@/lib/exchange/plan'
import type { Problem } from '@/lib/exchange/problems'
import { paths } from '@/lib/paths'
import { runImport } from '../actions'

const PROBLEMS_A_PAGE = 100
const OTHERS_SHOWN = 100

type Props = {
  run: DryRun
  query: ImportQuery
  uploadId: string
  asked: Record<string, string | string[] | undefined>
}

/** What importing would do, every problem by its place, and the button that does it once there is none. */
export function CheckedFile({ run, query, uploadId, asked }: Props) {
  if (run.questions.length > 0) return null
  const search = new URLSearchParams(
    Object.entries(asked).flatMap(([k, v]) => (typeof v === 'string' ? [[k, v]] : [])),
  )
  return (
    <section className="sheet stack" aria-labelledby="checked">
      <h2 id="checked">What this file would do</h2>
      <ul>
        {lines(run).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {run.problems.length > 0 ? (
        <>
          <p className="error" role="alert">
            {run.problems.length.toLocaleString('en-US')}{' '}
            {run.problems.length === 1 ? 'problem keeps' : 'problems keep'} the file from being stored. Mend
            them in the file, or say below what a column is.
          </p>
          <Places title="Problems" problems={pageOf(run.problems, query.page)} />
          <Pages query={query} total={run.problems.length} search={search} uploadId={uploadId} />
        </>
      ) : (
        <form action={runImport.bind(null, uploadId, search.toString())}>
          <SubmitButton busy="Starting…">Import</SubmitButton>
        </form>
      )}
      <Places
        title="Readings that will be kept and not reckoned with"
        problems={run.doubts.slice(0, OTHERS_SHOWN)}
        total={run.doubts.length}
      />
      <Places
        title="Worth knowing"
        problems={run.notices.slice(0, OTHERS_SHOWN)}
        total={run.notices.length}
      />
      {run.differences.length > 0 ? (
        <details>
          <summary>
            {run.differences.length.toLocaleString('en-US')} differences between file and register
          </summary>
          <ul>
            {run.differences.slice(0, OTHERS_SHOWN).map((d) => (
              <li key={`${d.row} ${d.what}`}>
                Row {d.row}, {d.well}, {d.what}: “{d.before}” in the register, “{d.after}” in the file
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  )
}

function lines(run: DryRun): string[] {
  const out: string[] = []
  const say = (what: string, tally: DryRun['wells']) => {
    if (tally.new) out.push(`${tally.new.toLocaleString('en-US')} new ${what}`)
    if (tally.changed) out.push(`${tally.changed.toLocaleString('en-US')} ${what} changed`)
    if (tally.left)
      out.push(
        `${tally.left.toLocaleString('en-US')} ${what} differ and are left as they are in the register`,
      )
    if (tally.unchanged) out.push(`${tally.unchanged.toLocaleString('en-US')} ${what} unchanged`)
  }
  say('wells', run.wells)
  say('duties', run.duties)
  if (run.entries.new) out.push(`${run.entries.new.toLocaleString('en-US')} new logbook lines`)
  if (run.entries.unchanged)
    out.push(`${run.entries.unchanged.toLocaleString('en-US')} logbook lines are there already`)
  return out.length > 0 ? out : ['Nothing: the file says nothing that is not there already.']
}

function pageOf(problems: readonly Problem[], page: number): Problem[] {
  return problems.slice((page - 1) * PROBLEMS_A_PAGE, page * PROBLEMS_A_PAGE)
}

function Places({ title, problems, total }: { title: string; problems: readonly Problem[]; total?: number }) {
  if (problems.length === 0) return null
  const more =
    total !== undefined && total > problems.length ? ` (the first ${problems.length} of ${total})` : ''
  return (
    <TableFrame label={title}>
      <table className="table">
        <caption>
          {title}
          {more}
        </caption>
        <thead>
          <tr>
            <th scope="col">Row</th>
            <th scope="col">Column</th>
            <th scope="col">Value</th>
            <th scope="col">What is wrong</th>
          </tr>
        </thead>
        <tbody>
          {problems.map((problem) => (
            <tr key={`${problem.row} ${problem.column} ${problem.message}`}>
              <td>{problem.row ?? 'file'}</td>
              <td>{problem.column}</td>
              <td>{problem.value}</td>
              <td>{problem.message}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}

function Pages({
  query,
  total,
  search,
  uploadId,
}: {
  query: ImportQuery
  total: number
  search: URLSearchParams
  uploadId: string
}) {
  const last = Math.ceil(total / PROBLEMS_A_PAGE)
  if (last < 2) return null
  const to = (page: number) => paths.import(uploadId, { ...Object.fromEntries(search), page: String(page) })
  return (
    <nav className="row" aria-label="Pages of problems">
      {query.page > 1 ? (
        <Link href={to(query.page - 1)} prefetch={false}>
          Earlier problems
        </Link>
      ) : null}
      <span>
        Page {query.page} of {last}
      </span>
      {query.page < last ? (
        <Link href={to(query.page + 1)} prefetch={false}>
          More problems
        </Link>
      ) : null}
    </nav>
  )
}
