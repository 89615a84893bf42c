import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { currentSession } from '@/app/ui/session'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { JoinForm } from './join-form'

export const metadata: Metadata = { title: 'Begin with your card' }

/** Where a card or a link leads: its holder makes an account for the household it names. */
export default async function JoinPage({ searchParams }: { searchParams: Promise<Params> }) {
  if (await currentSession()) redirect('/')
  return (
    <>
      <PageHead
        title="Begin with your card"
        lead="Whoever looks after your well gave you a card or a link with a code. With it you make your own way in."
      />
      <JoinForm code={textParam(await searchParams, 'code')} />
    </>
  )
}
