import { TableFrame } from '@/app/ui/table-frame'
import { sampleOf } from '@/lib/domain/logbook/water-sample'
import { sayResult } from '@/lib/forms/sheet/row-reading'
import type { SampleFact } from '@/lib/records/sample-page'

/** The rows as they stand on the sheet, each with how it was read. */
export function AsWritten({ fact, entryId }: { fact: SampleFact; entryId: string }) {
  return (
    <section className="stack" aria-labelledby="written">
      <h2 id="written">As written on the sheet</h2>
      <TableFrame label="The sheet as written">
        <table className="table table-cards">
          <thead>
            <tr>
              <th scope="col">Tested for</th>
              <th scope="col">Result</th>
              <th scope="col">Unit</th>
              <th scope="col">Reporting limit</th>
              <th scope="col">Qualifier</th>
              <th scope="col">Method</th>
              <th scope="col">Read as</th>
            </tr>
          </thead>
          <tbody>
            {fact.results.map((row, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: rows of a stored sheet never change their order
              <tr key={i}>
                <th scope="row">{row.analyte}</th>
                <td data-label="Result">{row.result || '(blank)'}</td>
                <Cell label="Unit" text={row.unit} />
                <Cell label="Reporting limit" text={row.reportingLimit} />
                <Cell label="Qualifier" text={row.qualifier} />
                <Cell label="Method" text={row.method} />
                <td data-label="Read as">{readAs(fact, row, entryId)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </section>
  )
}

/** A blank cell keeps its column on wide screens and takes no line on narrow ones. */
function Cell({ label, text = '' }: { label: string; text?: string }) {
  return (
    <td data-label={label} className={text === '' ? 'blank' : undefined}>
      {text}
    </td>
  )
}

function readAs(fact: SampleFact, row: SampleFact['results'][number], entryId: string): string {
  const { results, unread } = sampleOf({ ...fact, results: [row] }, entryId)
  const [result] = results
  const said = result ? sayResult(result) : `not judged: ${unread[0]?.why ?? 'it could not be read'}`
  const answered = (row.answers ?? []).map(({ question, answer }) => `${question}: ${answer}`)
  const open = result?.questions.map(({ ask }) => `open: ${ask}`) ?? []
  const leftOut = row.leftOut ? [`left out: ${row.leftOut}`] : []
  return [said, ...answered, ...open, ...leftOut].join('; ')
}
