import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { slug } from '@/lib/domain/upkeep/keys'
import { DUTY_LIBRARY } from '@/lib/domain/upkeep/library'
import { REMINDER_DEFAULTS, REMINDERS_KEY, reminderChoices } from '@/lib/domain/upkeep/reminder-settings'
import { dutyBox } from '@/lib/forms/defaults-form'
import { paths } from '@/lib/paths'
import { newWellDefaults } from '@/lib/records/new-well-defaults'
import { getDb } from '@/lib/records/open'
import { getSetting } from '@/lib/records/settings'
import { DefaultsForm } from './defaults-form'
import { ReminderForm } from './reminder-form'

export const metadata: Metadata = { title: 'What new wells begin with' }

/** What the outfit chose for new wells, new accounts and reminders. */
export default async function DefaultsPage() {
  const viewer = await deskViewer()
  await demand(viewer, 'setting.edit')
  const db = await getDb()
  const { duties, ...rest } = newWellDefaults(db)
  const initial: Record<string, string> = {
    units: rest.units,
    closedFrom: rest.closedFrom ?? '',
    closedTo: rest.closedTo ?? '',
    closedWhy: rest.closedWhy ?? '',
  }
  for (const { name } of DUTY_LIBRARY) {
    const chosen = duties.find(({ key }) => key === slug(name))
    const box = dutyBox(slug(name))
    initial[box.tick] = chosen ? '1' : ''
    initial[box.months] = chosen?.everyMonths ? String(chosen.everyMonths) : ''
  }
  return (
    <>
      <PageHead
        title="What new wells begin with"
        lead="Wells that are in the register already keep what they have. An import gives what its file says."
      >
        <Link className="button button-quiet" href={paths.settings()} prefetch={false}>
          Back to the settings
        </Link>
      </PageHead>
      <section className="sheet" aria-labelledby="new-wells">
        <h2 id="new-wells">New wells and accounts</h2>
        <DefaultsForm
          duties={DUTY_LIBRARY.map(({ name, everyMonths, basisNote }) => ({
            key: slug(name),
            name,
            months: everyMonths,
            basis: basisNote,
          }))}
          initial={initial}
        />
      </section>
      <section className="sheet" aria-labelledby="reminders">
        <h2 id="reminders">Reminders</h2>
        <ReminderForm choices={getSetting(db, REMINDERS_KEY, reminderChoices, REMINDER_DEFAULTS)} />
      </section>
    </>
  )
}
