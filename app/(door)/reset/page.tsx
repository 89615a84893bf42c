import type { Metadata } from 'next'
import { PageHead } from '@/app/ui/page-head'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { NewPasswordForm } from './reset-form'

export const metadata: Metadata = { title: 'New password' }

/** Where a link from a mail leads, and where the code of a card is typed. Whoever is signed in may be somebody else. */
export default async function ResetPage({ searchParams }: { searchParams: Promise<Params> }) {
  return (
    <>
      <PageHead title="Choose a new password" lead="It ends every session of the account, on every device." />
      <NewPasswordForm code={textParam(await searchParams, 'code')} />
    </>
  )
}
