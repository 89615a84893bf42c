'use client'

import { useState, useTransition } from 'react'
import { askDevice, NO_ANSWER, usePasskeys } from '@/app/ui/use-passkeys'
import { finishPasskeySignIn, startPasskeySignIn } from './passkey-actions'

/** Signs in with a finger, a face or the code of the device. Not shown where the browser cannot. */
export function PasskeySignIn({ next }: { next: string }) {
  const able = usePasskeys()
  const [pending, start] = useTransition()
  const [message, setMessage] = useState('')
  if (!able) return null
  const go = () =>
    start(async () => {
      setMessage('')
      const options = PublicKeyCredential.parseRequestOptionsFromJSON(
        (await startPasskeySignIn()) as unknown as PublicKeyCredentialRequestOptionsJSON,
      )
      const proof = await askDevice(() => navigator.credentials.get({ publicKey: options }))
      if (!(proof instanceof PublicKeyCredential)) return setMessage(NO_ANSWER)
      const refused = await finishPasskeySignIn(proof.toJSON(), next)
      if (refused) setMessage('This passkey is not known here any more. Use the password')
    })
  return (
    <div className="stack-tight">
      <button
        type="button"
        className="button button-quiet"
        aria-disabled={pending}
        onClick={pending ? undefined : go}
      >
        {pending ? 'Asking the device…' : 'Sign in with a passkey'}
      </button>
      <p role="status" className="text">
        {message}
      </p>
    </div>
  )
}
