import type { Metadata } from 'next'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { wholeFits } from '@/lib/exchange/whole'
import { getDb } from '@/lib/records/open'

export const metadata: Metadata = { title: 'Export' }

const FILES = [
  ['wells', 'the register: every well as built'],
  ['duties', 'the duties of every well with their limits'],
  ['visits', 'what was done and read on every visit'],
  ['recovery', 'the readings of recovery tests'],
  ['samples', 'the results of lab sheets'],
  ['entries', 'logbook lines that no other file has a column for'],
] as const

/** For spreadsheets alone: the import does not take these back. */
const ONE_WAY = [
  ['rounds', 'rounds with their stops, what was wished of the visit, and how each stop ended'],
  ['parts', 'the register of parts of every well, with warranties, those taken out among them'],
  ['plates', 'codes of plates, those taken back among them'],
  ['stock', 'every kind of part: what is on the shelf, when it is ordered'],
  ['stock-book', 'every line of the stock book; parts fitted are in the logbooks'],
] as const

/** The plain files of the whole fleet. Imported into an empty register in this order, they give the same again. */
export default async function ExportPage() {
  const viewer = await deskViewer()
  await demand(viewer, 'export.run')
  return (
    <>
      <PageHead
        title="Export"
        lead="Plain CSV files that any spreadsheet opens, and that the import takes back; or everything at once."
      />
      <h2>The fleet</h2>
      <ul className="plain-list stack">
        {FILES.map(([name, what]) => (
          <ExportFile key={name} name={name} what={what} />
        ))}
      </ul>
      <h2>Rounds, parts, plates and the shelf</h2>
      <p className="text">For reading on in a spreadsheet: the import does not take these back.</p>
      <ul className="plain-list stack">
        {ONE_WAY.map(([name, what]) => (
          <ExportFile key={name} name={name} what={what} />
        ))}
      </ul>
      <Everything fits={wholeFits(await getDb(), viewer)} />
    </>
  )
}

function Everything({ fits }: { fits: boolean }) {
  return (
    <section className="stack" aria-labelledby="everything">
      <h2 id="everything">Everything</h2>
      <p className="text">
        One ZIP archive: the files above, every photo and PDF, settings, households, people, rounds, stock,
        mails and the change record. Passwords, passkeys and codes are not in it. Its list,{' '}
        <code>manifest.json</code>, names every file with its SHA-256, and says what is left out and why.
      </p>
      <p className="text">
        It holds names, addresses and gate codes: keep it as you keep the office key. To bring the program
        itself back after a loss, keep copies of the data folder: the archive is for reading elsewhere.
      </p>
      {fits ? (
        <p>
          <a className="button" href="/api/export/everything.zip" download>
            everything.zip
          </a>
        </p>
      ) : (
        <p className="text">
          The attached files are more than one archive holds. Copy the data folder instead: they lie in it
          under <code>files</code>.
        </p>
      )}
    </section>
  )
}

function ExportFile({ name, what }: { name: string; what: string }) {
  return (
    <li>
      <a className="button button-quiet" href={`/api/export/${name}.csv`} download>
        {name}.csv
      </a>{' '}
      {what}
    </li>
  )
}
