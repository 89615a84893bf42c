import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { ownViewer } from '@/app/ui/session'
import { OWNER_ADVICE, OWNER_CAUTION } from '@/lib/domain/logbook/owner-advice'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { getOutfit } from '@/lib/records/settings'
import { visibleWell } from '@/lib/records/wells'

export const metadata: Metadata = { title: 'What to do if' }

/** What the household does first when something is wrong. One page to print and hang up. */
export default async function WhatIfPage({ params }: { params: Promise<{ wellId: string }> }) {
  const { wellId } = await params
  const viewer = await ownViewer()
  const db = await getDb()
  if (!visibleWell(db, viewer, wellId)) notFound()
  const outfit = getOutfit(db)
  const contact = [outfit.name, outfit.contact].filter(Boolean).join(', ')
  return (
    <>
      <PageHead title="What to do if" lead={contact === '' ? undefined : `Tell the outfit: ${contact}`}>
        <PrintButton />
        <Link className="button button-quiet" href={paths.ownWell(wellId)} prefetch={false}>
          Back to your well
        </Link>
      </PageHead>
      <p className="text">
        <strong>{OWNER_CAUTION}</strong>
      </p>
      {OWNER_ADVICE.map(({ key, title, steps }) => (
        <section key={key} className="sheet stack" aria-labelledby={key}>
          <h2 id={key}>{title}</h2>
          <ol>
            {steps.map((step) => (
              <li key={step}>{step}</li>
            ))}
          </ol>
        </section>
      ))}
    </>
  )
}
