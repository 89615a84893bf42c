'use server'

import { headers } from 'next/headers'
import { redirect } from 'next/navigation'
import { applyCookies } from '@/app/ui/session'
import { localPath } from '@/lib/forms/accounts'
import { passkeyProof } from '@/lib/forms/passkey-answer'
import { getDb } from '@/lib/records/open'
import { beginPasskeySignIn, signInWithPasskey } from '@/lib/records/passkeys'

/** What the device is asked. The same for everybody: nobody has said yet who they are. */
export async function startPasskeySignIn(): Promise<Record<string, unknown>> {
  const { options, cookies } = await beginPasskeySignIn(await getDb())
  await applyCookies(cookies)
  return options
}

/** Lets the device's person in and leads them on; 'no-match' for whatever reason it is refused. */
export async function finishPasskeySignIn(proof: unknown, next: unknown): Promise<'no-match'> {
  const parsed = passkeyProof.safeParse(proof)
  if (!parsed.success) return 'no-match'
  const outcome = await signInWithPasskey(await getDb(), await headers(), parsed.data)
  if (outcome.kind !== 'signed-in') return 'no-match'
  await applyCookies(outcome.cookies)
  redirect(localPath(typeof next === 'string' ? next : '/'))
}
