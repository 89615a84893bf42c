import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { Status } from '@/app/ui/status'
import { SCHEME_IDS, schemeTitle } from '@/lib/domain/water/schemes'
import { paths } from '@/lib/paths'
import { listPeople } from '@/lib/records/accounts'
import { getDb } from '@/lib/records/open'
import { reckonSettings } from '@/lib/records/reckon-settings'
import { getOutfit } from '@/lib/records/settings'
import { PersonButtons } from '../_people/person-buttons'
import { ResetCard } from '../_people/reset-card'
import { ResetForm } from '../_people/reset-form'
import { SwitchPerson } from '../_people/switch-person'
import { OutfitForm } from './outfit-form'
import { PersonForm } from './person-form'
import { ReckonForm } from './reckon-form'

export const metadata: Metadata = { title: 'Settings' }

export default async function SettingsPage() {
  const viewer = await deskViewer()
  await demand(viewer, 'setting.edit')
  await demand(viewer, 'user.manage')
  const db = await getDb()
  // Owners stand with their household, under Households.
  const people = (await listPeople(db, viewer)).filter((person) => person.role !== 'owner')
  const { settings } = reckonSettings(db.sqlite)
  return (
    <>
      <PageHead title="Settings" />
      <section className="sheet" aria-labelledby="people">
        <h2 id="people">People</h2>
        <ul className="plain-list stack">
          {people.map((person) => (
            <li key={person.id} className="stack-tight">
              <div className="row">
                <strong>{person.name}</strong>
                <span>{person.email}</span>
                <span>{person.role}</span>
                {person.disabled ? (
                  <Status tone="unsure">shut out</Status>
                ) : (
                  <Status tone="calm">can sign in</Status>
                )}
              </div>
              {person.id === viewer.userId ? null : (
                <>
                  <div className="row">
                    <SwitchPerson person={person} />
                    <PersonButtons person={person} />
                  </div>
                  <ResetCard id={person.id} name={person.name} />
                  <ResetForm id={person.id} name={person.name} />
                </>
              )}
            </li>
          ))}
        </ul>
      </section>
      <section className="sheet" aria-labelledby="add-person">
        <h2 id="add-person">Add a person</h2>
        <PersonForm />
      </section>
      <section className="sheet" aria-labelledby="more">
        <h2 id="more">More settings</h2>
        <ul>
          <li>
            <Link href={paths.defaults()} prefetch={false}>
              What new wells begin with
            </Link>
            : duties, closed season, units; and when reminders go out
          </li>
          <li>
            <Link href={paths.reminders()} prefetch={false}>
              Reminders
            </Link>
            : what goes out tomorrow, and what did not go out
          </li>
          <li>
            <Link href={paths.localLimits()} prefetch={false}>
              Local limits
            </Link>{' '}
            for water:{' '}
            {settings.water.local.length === 0
              ? 'none typed in yet'
              : `${settings.water.local.length} typed in`}
          </li>
          <li>
            <Link href={paths.yard()} prefetch={false}>
              Yard and days on the road
            </Link>
            : where rounds start, the hours of a day, driving and minutes of work
          </li>
          <li>
            <Link href={paths.mapSettings()} prefetch={false}>
              Ground of the map
            </Link>
          </li>
          <li>
            <Link href={paths.exports()} prefetch={false}>
              Export
            </Link>{' '}
            of the fleet as plain files, or of everything as one archive
          </li>
          <li>
            What is kept of people, and how long: what households write stays with the well; names, addresses
            and accounts stay until you forget the person or the household. Open them under{' '}
            <Link href={paths.households()} prefetch={false}>
              Households
            </Link>
            . Words of mails are forgotten after a year.
          </li>
        </ul>
      </section>
      <section className="sheet" aria-labelledby="outfit">
        <h2 id="outfit">The outfit</h2>
        <OutfitForm outfit={getOutfit(db)} />
      </section>
      <section className="sheet" aria-labelledby="reckoning">
        <h2 id="reckoning">Reckoning</h2>
        <ReckonForm
          falseAlarmPercent={String(Number((settings.falseAlarmShare * 100).toFixed(2)))}
          ownerSheetsCount={settings.water.ownerSheetsCount}
          scheme={settings.water.scheme}
          schemes={SCHEME_IDS.map((value) => ({ value, label: schemeTitle(value).name }))}
        />
      </section>
    </>
  )
}
