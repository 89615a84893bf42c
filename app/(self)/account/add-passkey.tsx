'use client'

import { useState, useTransition } from 'react'
import { askDevice, NO_ANSWER, usePasskeys } from '@/app/ui/use-passkeys'
import { finishPasskey, startPasskey } from './passkey-actions'

/** Makes a passkey on the device in hand, or on a phone beside it. */
export function AddPasskey() {
  const able = usePasskeys()
  const [pending, start] = useTransition()
  const [name, setName] = useState('')
  const [said, setSaid] = useState('')
  if (!able) return <p className="muted">This browser cannot make passkeys. The password serves here.</p>
  const go = () =>
    start(async () => {
      setSaid('')
      if (name.trim() === '') return setSaid('Enter a name for it, such as "my phone"')
      const asked = await startPasskey()
      if (!asked)
        return setSaid('It is more than a day since you signed in. Sign out, sign in, and try again')
      const options = PublicKeyCredential.parseCreationOptionsFromJSON(
        asked as unknown as PublicKeyCredentialCreationOptionsJSON,
      )
      const made = await askDevice(() => navigator.credentials.create({ publicKey: options }))
      if (!(made instanceof PublicKeyCredential)) return setSaid(NO_ANSWER)
      const refused = await finishPasskey(name, made.toJSON())
      if (refused) return setSaid(refused)
      setName('')
      setSaid('Added. You can sign in with it from now on')
    })
  return (
    <div className="form">
      <div className="field">
        <label className="label" htmlFor="passkey-name">
          Name of this device
        </label>
        <input
          className="input"
          id="passkey-name"
          value={name}
          maxLength={60}
          autoComplete="off"
          onChange={(event) => setName(event.target.value)}
        />
      </div>
      <button type="button" className="button" aria-disabled={pending} onClick={pending ? undefined : go}>
        {pending ? 'Asking the device…' : 'Add a passkey'}
      </button>
      <p role="status" className="text">
        {said}
      </p>
    </div>
  )
}
