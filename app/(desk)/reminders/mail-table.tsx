import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import { TableFrame } from '@/app/ui/table-frame'
import { todayIn, zone } from '@/lib/clock'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import type { MailingRow, MailState } from '@/lib/records/mailings'
import { sendMailAgain } from './actions'

const WORDS: Record<MailState, [Tone, string]> = {
  claimed: ['note', 'Going out now'],
  handing: ['note', 'Going out now'],
  sent: ['calm', 'Sent'],
  failed: ['alarm', 'Failed'],
  unsure: ['watch', 'Nobody knows'],
  dropped: ['unsure', 'No longer wanted'],
}

/** Mails with what became of them. `again`: each can be sent once more. */
export function MailTable({
  rows,
  units,
  again = false,
  label,
}: {
  rows: readonly MailingRow[]
  units: UnitSystem
  again?: boolean
  label: string
}) {
  const show = (at: string) => showDay(todayIn(zone(), Date.parse(at)), units)
  return (
    <TableFrame label={label}>
      <table className="table table-cards">
        <thead>
          <tr>
            <th scope="col">To</th>
            <th scope="col">Mail</th>
            <th scope="col">State</th>
            {again ? <th scope="col">Do</th> : null}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.id}>
              <th scope="row" data-label="To">
                {row.name} <span className="muted">{row.address}</span>
              </th>
              <td data-label="Mail">
                {row.subject} <span className="muted">({show(row.claimedAt)})</span>
              </td>
              <td data-label="State">
                <Status tone={WORDS[row.state][0]}>{WORDS[row.state][1]}</Status>
                {row.reason === null ? null : <p>{row.reason}</p>}
                {row.state === 'failed' && row.tries > 0 ? (
                  <p className="muted">
                    {row.tries === 1 ? 'Tried once' : `Tried ${row.tries} times`}
                    {row.againAt === null ? '; not tried again by itself' : '; tried again by itself'}
                  </p>
                ) : null}
              </td>
              {again ? (
                <td data-label="Do">
                  <form action={sendMailAgain}>
                    <input type="hidden" name="id" value={row.id} />
                    <button className="button button-quiet" type="submit">
                      Send again<span className="unseen"> to {row.name}</span>
                    </button>
                  </form>
                </td>
              ) : null}
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}
