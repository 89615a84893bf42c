import type { Person } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { SubmitButton } from '@/app/ui/submit-button'
import { todayIn, zone } from '@/lib/clock'
import { mailChoice } from '@/lib/records/mail-choice'
import { getDb } from '@/lib/records/open'
import { FeedForm } from './feed-form'
import { switchMailOver, takeFeedBack } from './mail-actions'

/** What the viewer chose about reminders by mail, and their private calendar address. */
export async function MailSection({ viewer }: { viewer: Person }) {
  const { off, feedMadeAt } = mailChoice(await getDb(), viewer)
  return (
    <section className="sheet stack" aria-labelledby="mail">
      <h2 id="mail">Reminders and calendar</h2>
      {viewer.role === 'technician' ? (
        <p>Reminders by mail go to installers and to households.</p>
      ) : (
        <form action={switchMailOver} className="row">
          <input type="hidden" name="to" value={off ? 'on' : 'off'} />
          <Status tone={off ? 'unsure' : 'calm'}>
            {off ? 'Mails are switched off' : 'Reminders come by mail'}
          </Status>
          <SubmitButton quiet>{off ? 'Switch mails on' : 'Switch mails off'}</SubmitButton>
        </form>
      )}
      <p className="text">
        A calendar program can show what is due: it reads a private address that only you know. Whoever has
        the address can read the names of wells, what is due there and whether a warning holds, and nothing
        else.
      </p>
      {feedMadeAt === null ? (
        <p>You have no calendar address yet.</p>
      ) : (
        <form action={takeFeedBack} className="row">
          <span>
            You made a calendar address on {showDay(todayIn(zone(), Date.parse(feedMadeAt)), viewer.units)}.
          </span>
          <SubmitButton quiet>Take it back</SubmitButton>
        </form>
      )}
      <FeedForm renew={feedMadeAt !== null} />
    </section>
  )
}
