import type { Metadata } from 'next'
import Link from 'next/link'
import { redirect } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { currentSession } from '@/app/ui/session'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { paths } from '@/lib/paths'
import { AddForm } from './add-form'
import { JoinForm } from './join-form'

export const metadata: Metadata = { title: 'Begin with your card' }

/** Where a card or a link leads: its holder makes an account for the household it names, or adds it to theirs. */
export default async function JoinPage({ searchParams }: { searchParams: Promise<Params> }) {
  const code = textParam(await searchParams, 'code')
  const session = await currentSession()
  if (session && session.viewer.role !== 'owner') redirect('/')
  if (session) return <AddPage name={session.viewer.name} code={code} />
  return (
    <>
      <PageHead
        title="Begin with your card"
        lead="Whoever looks after your well gave you a card or a link with a code. With it you make your own way in."
      />
      <p className="text">
        You have an account already, for another well?{' '}
        <Link href={paths.signIn(paths.join(code))} prefetch={false}>
          Sign in first
        </Link>
        ; the card then adds to it.
      </p>
      <JoinForm code={code} />
    </>
  )
}

function AddPage({ name, code }: { name: string; code: string }) {
  return (
    <>
      <PageHead
        title="Add more wells"
        lead={`You are signed in as ${name}. A card of another household adds its wells to your account.`}
      />
      <AddForm code={code} />
      <p>
        <Link href={paths.own()} prefetch={false}>
          Back to your wells
        </Link>
      </p>
    </>
  )
}
