import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { SubmitButton } from '@/app/ui/submit-button'
import { paths } from '@/lib/paths'
import { personOfQuietToken } from '@/lib/records/mail-choice'
import { getDb } from '@/lib/records/open'
import { switchOff } from './actions'

export const metadata: Metadata = { title: 'No more mails' }

/** Where the link at the end of a mail leads. Looking switches nothing: programs follow links too. */
export default async function QuietPage({ params }: { params: Promise<{ token: string }> }) {
  const { token } = await params
  const person = personOfQuietToken(await getDb(), token)
  if (!person) notFound()
  return (
    <>
      <h1>Mails about wells</h1>
      {person.off ? (
        <p role="status">
          They are switched off: no more reminders go to {person.name}. What is due still stands on the pages
          of Wellround.
        </p>
      ) : (
        <>
          <p>Reminders about wells go to {person.name} by mail. Do you want no more of them?</p>
          <form action={switchOff.bind(null, token)}>
            <SubmitButton busy="Switching off…">Switch them off</SubmitButton>
          </form>
        </>
      )}
      <p>
        They can be switched on again in{' '}
        <Link href={paths.account()} prefetch={false}>
          your account
        </Link>
        .
      </p>
    </>
  )
}
