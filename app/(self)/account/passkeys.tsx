import { SubmitButton } from '@/app/ui/submit-button'
import type { PasskeyRow } from '@/lib/records/passkeys'
import { AddPasskey } from './add-passkey'
import { removeOwnPasskey } from './passkey-actions'
import { RenamePasskey } from './rename-passkey'

/** The devices that sign this person in without the password. */
export function Passkeys({ passkeys, day }: { passkeys: PasskeyRow[]; day: (at: Date) => string }) {
  return (
    <section className="sheet" aria-labelledby="passkeys">
      <h2 id="passkeys">Passkeys</h2>
      <p className="text">
        A passkey signs you in with the finger, face or code that opens your device. It cannot be guessed or
        told to a stranger. The password stays, for other devices.
      </p>
      <ul className="plain-list stack">
        {passkeys.map(({ id, name, addedAt, synced }) => (
          <li key={id} className="stack-tight">
            <div className="row">
              <strong>{name}</strong>
              <span>
                {addedAt ? `added ${day(addedAt)}` : 'added on an unknown day'}
                {synced ? ', on all devices that share it' : ', on one device'}
              </span>
              <form action={removeOwnPasskey}>
                <input type="hidden" name="id" value={id} />
                <SubmitButton quiet busy="Removing…">
                  Remove<span className="unseen"> {name}</span>
                </SubmitButton>
              </form>
            </div>
            <RenamePasskey id={id} name={name} />
          </li>
        ))}
      </ul>
      <AddPasskey />
    </section>
  )
}
