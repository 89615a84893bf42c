import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { EmptyState } from '@/app/ui/empty-state'
import { Field } from '@/app/ui/field'
import { NoticeSheet } from '@/app/ui/notice-sheet'
import { PageHead } from '@/app/ui/page-head'
import { PrintButton } from '@/app/ui/print-button'
import { deskViewer } from '@/app/ui/session'
import { chainName } from '@/lib/domain/water/chain-marks'
import { writeNotice } from '@/lib/domain/water/notice'
import { noticeFactsOf, openChainsOf } from '@/lib/domain/water/notice-facts'
import type { Params } from '@/lib/forms/list-filters'
import { type NoticeContact, readNoticeContact } from '@/lib/forms/notice-contact'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { getOutfit } from '@/lib/records/settings'
import { wellWater } from '@/lib/records/well-water'

export const metadata: Metadata = { title: 'Notice to the household' }

type Props = { params: Promise<{ wellId: string; key: string }>; searchParams: Promise<Params> }

/** The notice to print. It covers everything that is open at the well, so that no boil notice stands where boiling harms. */
export default async function NoticePage({ params, searchParams }: Props) {
  const { wellId, key: given } = await params
  const key = decodeURIComponent(given)
  const viewer = await deskViewer()
  const db = await getDb()
  const found = wellWater(db, viewer, wellId)
  if (!found?.water.chains.some((chain) => chain.key === key)) notFound()
  const chains = openChainsOf(found.water)
  const well = `${found.well.name ?? 'Well'} (${found.well.label})`
  if (chains.length === 0) return <NothingOpen wellId={wellId} name={chainName(key).toLowerCase()} />
  const contact = readNoticeContact(await searchParams, getOutfit(db))
  const notice = writeNotice({
    well: found.well.name ?? found.well.label,
    ...noticeFactsOf(found.water, chains),
    doing: null,
    contact,
    locale: viewer.units === 'us' ? 'en-US' : 'en-GB',
  })
  const others = chains.filter((chain) => chain.key !== key)
  return (
    <>
      <PageHead
        title="Notice to the household"
        lead={
          others.length > 0
            ? `It also covers ${others.map((chain) => chain.name.toLowerCase()).join(' and ')}: what is open together is told together.`
            : 'Print it, hand it over, and put it up where all can see it. Then write down who was told.'
        }
      >
        <PrintButton />
        <Link className="button button-quiet" href={paths.chain(wellId, key)} prefetch={false}>
          Back to the steps
        </Link>
      </PageHead>
      <ContactForm contact={contact} open={notice.kind === 'cannot-say'} action={paths.notice(wellId, key)} />
      {notice.kind === 'cannot-say' ? (
        <p role="alert">
          The notice cannot be printed yet. It needs {notice.need.join(', ')}. The outfit’s name and phone
          number can be set once for all notices under Settings.
        </p>
      ) : (
        <NoticeSheet notice={notice} well={well} />
      )}
    </>
  )
}

function ContactForm({ contact, open, action }: { contact: NoticeContact; open: boolean; action: string }) {
  const state = { typed: { ...contact }, errors: {} }
  return (
    <details className="no-print" open={open}>
      <summary>Whom to call, as printed</summary>
      <form className="form" action={action} method="get">
        <Field state={state} name="name" label="Name" />
        <Field state={state} name="phone" label="Phone" inputMode="tel" />
        <Field state={state} name="address" label="Address (optional)" />
        <div>
          <button className="button" type="submit">
            Put it on the notice
          </button>
        </div>
      </form>
    </details>
  )
}

function NothingOpen({ wellId, name }: { wellId: string; name: string }) {
  return (
    <>
      <PageHead title="Notice to the household" />
      <EmptyState title="Nothing is open at this well">
        <p>
          The chain for {name} has ended, so there is no notice to give.{' '}
          <Link href={paths.wellWater(wellId)} prefetch={false}>
            See the water of the well
          </Link>
        </p>
      </EmptyState>
    </>
  )
}
