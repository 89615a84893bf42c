import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/ui/page-head'
import { currentSession, signedInViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { SubmitButton } from '@/app/ui/submit-button'
import { todayIn, zone } from '@/lib/clock'
import { paths } from '@/lib/paths'
import { listSessions } from '@/lib/records/accounts'
import { getDb } from '@/lib/records/open'
import { passkeysOf } from '@/lib/records/passkeys'
import { endOneSession, endSessions } from './actions'
import { MailSection } from './mail-section'
import { Passkeys } from './passkeys'
import { PasswordForm } from './password-form'
import { ProfileForm } from './profile-form'

export const metadata: Metadata = { title: 'Your account' }

type Props = { searchParams: Promise<Record<string, string | string[] | undefined>> }

export default async function AccountPage({ searchParams }: Props) {
  const viewer = await signedInViewer()
  const session = await currentSession()
  const db = await getDb()
  const sessions = await listSessions(db, viewer)
  const day = (at: Date) => showDay(todayIn(zone(), at.getTime()), viewer.units)
  return (
    <>
      <PageHead title="Your account" lead={`Signed in as ${session?.email}, ${viewer.role}`} />
      {(await searchParams).password === 'changed' ? (
        <p className="done" role="status">
          The password is changed. Every other browser is signed out.
        </p>
      ) : null}
      <section className="sheet" aria-labelledby="about-you">
        <h2 id="about-you">About you</h2>
        <ProfileForm name={viewer.name} units={viewer.units} />
      </section>
      <MailSection viewer={viewer} />
      <section className="sheet" aria-labelledby="change-password">
        <h2 id="change-password">Change the password</h2>
        <PasswordForm />
      </section>
      <Passkeys passkeys={await passkeysOf(db, viewer)} day={day} />
      {viewer.role === 'owner' ? (
        <section className="sheet" aria-labelledby="more-wells">
          <h2 id="more-wells">More wells</h2>
          <p className="text">
            A card of another household adds its wells to this account.{' '}
            <Link href={paths.join()} prefetch={false}>
              Type its code
            </Link>
          </p>
        </section>
      ) : null}
      <section className="sheet" aria-labelledby="signed-in">
        <h2 id="signed-in">Where you are signed in</h2>
        <ul className="plain-list stack-tight">
          {sessions.map(({ id, browser, startedAt, lastUsedAt }) => (
            <li key={id} className="row">
              <span>
                {id === session?.sessionId ? <strong>This browser. </strong> : null}
                {browserWords(browser)}, since {day(startedAt)}, last used {day(lastUsedAt)}
              </span>
              {id === session?.sessionId ? null : (
                <form action={endOneSession}>
                  <input type="hidden" name="id" value={id} />
                  <SubmitButton quiet busy="Ending…">
                    End it<span className="unseen">: {browserWords(browser)}</span>
                  </SubmitButton>
                </form>
              )}
            </li>
          ))}
        </ul>
        <form action={endSessions}>
          <SubmitButton quiet busy="Signing out…">
            Sign out everywhere
          </SubmitButton>
        </form>
      </section>
    </>
  )
}

/** What a browser calls itself, and the name people know; the first that fits counts, since most claim to be several. */
const PROGRAMS = [
  ['Edg/', 'Edge'],
  ['Firefox/', 'Firefox'],
  ['Chrome/', 'Chrome'],
  ['Safari/', 'Safari'],
] as const

function browserWords(agent: string | null): string {
  if (!agent) return 'A browser that does not name itself'
  const program = PROGRAMS.find(([mark]) => agent.includes(mark))?.[1] ?? 'Another program'
  const system = /Android|iPhone|iPad|Windows|Macintosh|Linux/.exec(agent)?.[0]
  return system ? `${program} on ${system}` : program
}
