import type { Metadata } from 'next'
import Link from 'next/link'
import { notFound } from 'next/navigation'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { paths } from '@/lib/paths'
import { household } from '@/lib/records/households'
import { getDb } from '@/lib/records/open'
import { forget } from './actions'
import { ForgetForm } from './forget-form'

export const metadata: Metadata = { title: 'Forget people' }

/** What forgetting takes away, what it leaves, and the form that does it. */
export default async function ForgetPage({ params }: { params: Promise<{ ownerId: string }> }) {
  const viewer = await deskViewer()
  await demand(viewer, 'user.manage')
  const { ownerId } = await params
  const found = await household(await getDb(), viewer, ownerId)
  if (!found) notFound()
  return (
    <>
      <PageHead title={`Forget people of ${found.name}`}>
        <Link className="button button-quiet" href={paths.household(ownerId)} prefetch={false}>
          Back to the household
        </Link>
      </PageHead>
      <section className="sheet stack-tight text" aria-labelledby="goes">
        <h2 id="goes">What goes, and what stays</h2>
        <p>
          Of a person: the account with its password, passkeys and sessions, the cards they used, and their
          name and address in the change record. Of the household: also its name, phone, email and notes.
        </p>
        <p>
          The wells keep their records. What the person wrote in a logbook stays and is shown as written by a
          former owner. Notes and photos may name people in their own words: read them, and withdraw what
          should not stand. The notes and the way in of a well are on its edit page.
        </p>
        {found.wells.length > 0 ? (
          <p>
            {found.wells.length === 1 ? 'One well belongs' : `${found.wells.length} wells belong`} to this
            household. Nobody could be warned about {found.wells.length === 1 ? 'it' : 'them'} any more: hand
            over what was sold first.
          </p>
        ) : null}
        <p className="muted">Backups made before keep what they hold until they are deleted.</p>
      </section>
      <ForgetForm
        action={forget.bind(null, ownerId)}
        options={[
          ...found.people.map(({ id, name, email }) => ({ value: id, label: `${name}, ${email}` })),
          { value: 'household', label: `The whole household ${found.name}` },
        ]}
      />
    </>
  )
}
