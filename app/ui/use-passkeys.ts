'use client'

import { useSyncExternalStore } from 'react'

const nothing = () => () => undefined
const known = () =>
  typeof PublicKeyCredential !== 'undefined' && 'parseRequestOptionsFromJSON' in PublicKeyCredential

/** Whether this browser can ask a device for a passkey. False on the server and on old phones: the password serves there. */
export function usePasskeys(): boolean {
  return useSyncExternalStore(nothing, known, () => false)
}

/** What a person reads where the device gave no answer: they called it off, or it cannot. */
export const NO_ANSWER =
  'The device gave no passkey: it was called off, or none for this site lies on it. Try again, or use the password'

/** Runs one exchange with the device; its refusals are an answer, whatever else goes wrong is not. */
export async function askDevice<T>(ask: () => Promise<T>): Promise<T | null> {
  try {
    return await ask()
  } catch (error) {
    if (error instanceof DOMException) return null
    throw error
  }
}
