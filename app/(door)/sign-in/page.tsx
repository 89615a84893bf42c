import type { Metadata } from 'next'
import Link from 'next/link'
import { redirect } from 'next/navigation'
import { LeftPhone } from '@/app/_offline/left-phone'
import { DropDraft } from '@/app/ui/drop-draft'
import { PageHead } from '@/app/ui/page-head'
import { currentSession } from '@/app/ui/session'
import { localPath } from '@/lib/forms/accounts'
import { paths } from '@/lib/paths'
import { hasUsers } from '@/lib/records/accounts'
import { getDb } from '@/lib/records/open'
import { PasskeySignIn } from './passkey-sign-in'
import { SignInForm } from './sign-in-form'

export const metadata: Metadata = { title: 'Sign in' }

export default async function SignInPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[]>>
}) {
  const { next, left, reset } = await searchParams
  const after = localPath(typeof next === 'string' ? next : '/')
  if (!(await hasUsers(await getDb()))) redirect('/first-run')
  if (await currentSession()) redirect(after)
  return (
    <>
      <PageHead title="Sign in" />
      {/* Whoever left on purpose leaves no half-filled form behind; a session that ran out keeps it. */}
      {left === 'yes' ? (
        <>
          <DropDraft />
          <LeftPhone />
        </>
      ) : null}
      {reset === 'done' ? (
        <p className="done" role="status">
          The new password holds. Sign in with it.
        </p>
      ) : null}
      <SignInForm next={after} />
      <PasskeySignIn next={after} />
      <p className="text">
        Did you get a card or a link for your well?{' '}
        <Link href={paths.join()} prefetch={false}>
          Begin with its code
        </Link>
      </p>
      <p className="text">
        <Link href={paths.forgot()} prefetch={false}>
          Forgotten the password?
        </Link>
      </p>
    </>
  )
}
