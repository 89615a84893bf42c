import type { Metadata } from 'next'
import Link from 'next/link'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { addDays } from '@/lib/domain/quantity/day'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { mailSettings } from '@/lib/mail/mail-settings'
import { paths } from '@/lib/paths'
import { mailingList, troubled } from '@/lib/records/mailings'
import { getDb } from '@/lib/records/open'
import { reminderSettings } from '@/lib/records/reminder-settings'
import { lettersOn } from '@/lib/records/tomorrow'
import { MailTable } from './mail-table'

export const metadata: Metadata = { title: 'Reminders' }

const LETTERS = 25
const ROWS = 25

/** What goes out tomorrow, what did not go out, and what went out. */
export default async function RemindersPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  await demand(viewer, 'setting.edit')
  const db = await getDb()
  const tomorrow = addDays(today(), 1)
  const { letters, more } = lettersOn(db, viewer, tomorrow, LETTERS)
  const troubles = troubled(db, viewer)
  const sent = mailingList(db, viewer, textParam(await searchParams, 'after') || null, ROWS)
  const { leadDays, hour } = reminderSettings(db)
  const where =
    mailSettings().kind === 'smtp'
      ? 'through the mail server'
      : 'into the outbox folder, for no mail server is set'
  return (
    <>
      <PageHead
        title="Reminders"
        lead={`They go out ${where}, from ${hour}:00 on, ${leadWords(leadDays)}. Each thing is told to each person once at each of these times.`}
      />
      {troubles.length === 0 ? null : (
        <section className="stack" aria-labelledby="troubles">
          <h2 id="troubles">Did not go out</h2>
          <p className="text">
            “Nobody knows” means that the mail was handed over whole and the answer never came: it may have
            arrived. It is not repeated by itself.
          </p>
          <MailTable rows={troubles} units={viewer.units} again label="Mails that did not go out" />
        </section>
      )}
      <section className="stack" aria-labelledby="tomorrow">
        <h2 id="tomorrow">What goes out tomorrow</h2>
        {letters.length === 0 ? (
          <EmptyState title={`Nothing goes out by ${showDay(tomorrow, viewer.units)}`}>
            <p>
              A mail goes out when a duty of a well comes within reach, or a household or the office has
              something to answer. People get theirs once they have an account: make cards under Households.
            </p>
          </EmptyState>
        ) : null}
        {letters.map(({ person, letter }) => (
          <details key={person.userId} className="section">
            <summary>
              {person.name}, {person.email}: {letter.subject}
            </summary>
            <div className="section-body">
              <pre className="letter">{letter.text}</pre>
            </div>
          </details>
        ))}
        {more > 0 ? <p>And {more} more people get one.</p> : null}
      </section>
      <section className="stack" aria-labelledby="sent">
        <h2 id="sent">Went out</h2>
        {sent.rows.length === 0 ? (
          <p>Nothing yet.</p>
        ) : (
          <MailTable rows={sent.rows} units={viewer.units} label="Mails, newest first" />
        )}
        {sent.next === null ? null : (
          <p>
            <Link
              className="button button-quiet"
              href={paths.reminders({ after: sent.next })}
              prefetch={false}
            >
              Next {ROWS}
            </Link>
          </p>
        )}
      </section>
    </>
  )
}

function leadWords(leadDays: readonly number[]): string {
  const words = [...leadDays]
    .sort((a, b) => b - a)
    .map((days) => (days === 0 ? 'on the day' : `${days} days before`))
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}
