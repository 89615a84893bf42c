import type { Metadata } from 'next'
import Link from 'next/link'
import { redirect } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { currentSession } from '@/app/ui/session'
import { paths } from '@/lib/paths'
import { ForgotForm } from './forgot-form'

export const metadata: Metadata = { title: 'Forgotten password' }

/** For whoever forgot their password: by mail, or with a card. */
export default async function ForgotPage() {
  if (await currentSession()) redirect(paths.account())
  return (
    <>
      <PageHead
        title="Forgotten password"
        lead="Type your email address. A link to choose a new password is sent there."
      />
      <ForgotForm />
      <p className="text">
        You read no email? Ask whoever looks after your well for a card, and{' '}
        <Link href={paths.reset()} prefetch={false}>
          type its code here
        </Link>
        .
      </p>
      <p>
        <Link href={paths.signIn()} prefetch={false}>
          Back to signing in
        </Link>
      </p>
    </>
  )
}
