import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { hasUsers } from '@/lib/records/accounts'
import { getDb } from '@/lib/records/open'
import { FirstRunForm } from './first-run-form'

export const metadata: Metadata = { title: 'First account' }

export default async function FirstRunPage() {
  if (await hasUsers(await getDb())) redirect('/sign-in')
  return (
    <>
      <PageHead
        title="Make the first account"
        lead="Nobody can sign in yet. This account is the installer’s: it keeps the register and makes the accounts of everybody else."
      />
      <FirstRunForm />
    </>
  )
}
