import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { now } from '@/lib/clock'
import { paths } from '@/lib/paths'
import { household } from '@/lib/records/households'
import { type InvitationState, invitationState } from '@/lib/records/invitations'
import { getDb } from '@/lib/records/open'
import { getOutfit } from '@/lib/records/settings'
import { PersonButtons } from '../../_people/person-buttons'
import { ResetCard } from '../../_people/reset-card'
import { ResetForm } from '../../_people/reset-form'
import { SwitchPerson } from '../../_people/switch-person'
import { takeBack, takeOut } from './actions'
import { InviteForm } from './invite-form'

export const metadata: Metadata = { title: 'Household' }

const WORDS: Record<InvitationState, string> = {
  open: 'not used yet',
  used: 'used',
  'run-out': 'has run out',
  'taken-back': 'taken back',
}

/** One household: its wells, who can sign in for it, and the cards that were given out. */
export default async function HouseholdPage({ params }: { params: Promise<{ ownerId: string }> }) {
  const viewer = await deskViewer()
  await demand(viewer, 'user.manage')
  const { ownerId } = await params
  const db = await getDb()
  const found = await household(db, viewer, ownerId)
  if (!found) notFound()
  const at = now()
  const day = (instant: string) => showDay(instant.slice(0, 10), viewer.units)
  return (
    <>
      <PageHead title={found.name} lead={[found.phone, found.email].filter(Boolean).join(' · ')} />
      <section className="sheet no-print" aria-labelledby="wells">
        <h2 id="wells">Wells</h2>
        {found.wells.length === 0 ? <p>No well belongs to this household now.</p> : null}
        <ul className="plain-list">
          {found.wells.map((well) => (
            <li key={well.id}>
              <Link href={paths.well(well.id)} prefetch={false}>
                {well.label}
                {well.name ? `, ${well.name}` : ''}
              </Link>
              {well.retiredOn ? ' (retired)' : ''}{' '}
              <Link href={paths.sale(well.id)} prefetch={false}>
                Sold?<span className="unseen"> Hand {well.label} over</span>
              </Link>
            </li>
          ))}
        </ul>
        <p className="muted text">
          When a property is sold, hand its well over. The records stay with the well, and the people below no
          longer see it.
        </p>
      </section>
      <section className="sheet no-print" aria-labelledby="people">
        <h2 id="people">Who can sign in</h2>
        {found.people.length === 0 ? <p>Nobody yet. Invite them below.</p> : null}
        <ul className="plain-list stack">
          {found.people.map((person) => (
            <li key={person.id} className="stack-tight">
              <div className="row">
                <strong>{person.name}</strong>
                <span>{person.email}</span>
                {person.disabled ? (
                  <Status tone="unsure">shut out</Status>
                ) : (
                  <Status tone="calm">can sign in</Status>
                )}
              </div>
              <div className="row">
                <SwitchPerson person={person} />
                <PersonButtons person={{ ...person, role: 'owner' }} />
                <form action={takeOut}>
                  <input type="hidden" name="id" value={person.id} />
                  <input type="hidden" name="ownerId" value={found.id} />
                  <button type="submit" className="button button-quiet">
                    Take out of this household<span className="unseen">: {person.name}</span>
                  </button>
                </form>
              </div>
              <ResetCard id={person.id} name={person.name} />
              <ResetForm id={person.id} name={person.name} />
            </li>
          ))}
        </ul>
      </section>
      <p className="no-print">
        <Link href={paths.forget(found.id)} prefetch={false}>
          Forget a person or the household
        </Link>
        : takes their personal data away, and leaves the wells their records.
      </p>
      <section className="sheet" aria-labelledby="invite">
        <h2 id="invite" className="no-print">
          Invite somebody
        </h2>
        <InviteForm ownerId={found.id} household={found.name} outfit={getOutfit(db)} />
      </section>
      <section className="sheet no-print" aria-labelledby="invitations">
        <h2 id="invitations">Cards given out</h2>
        {found.invitations.length === 0 ? <p>None yet.</p> : null}
        <ul className="plain-list stack">
          {found.invitations.map((row) => {
            const state = invitationState(row, at)
            return (
              <li key={row.id} className="row">
                <span>
                  For {row.forName}, made {day(row.createdAt)} by {row.createdBy}: {WORDS[state]}
                  {state === 'open' ? `, good until ${day(row.expiresAt)}` : ''}
                </span>
                {state === 'open' ? (
                  <form action={takeBack}>
                    <input type="hidden" name="id" value={row.id} />
                    <input type="hidden" name="ownerId" value={found.id} />
                    <button type="submit" className="button button-quiet">
                      Take back<span className="unseen"> the card for {row.forName}</span>
                    </button>
                  </form>
                ) : null}
              </li>
            )
          })}
        </ul>
      </section>
    </>
  )
}
