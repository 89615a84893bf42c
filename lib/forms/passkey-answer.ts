import { z } from 'zod'

/** Bytes as the Web Authentication standard writes them in JSON: base64url. The longest we know are under 2 kB. */
const bytes = z
  .string()
  .max(8192)
  .regex(/^[A-Za-z0-9_-]*$/)
const credential = {
  id: bytes,
  rawId: bytes,
  type: z.literal('public-key'),
  // Asked for by nobody here, and not kept.
  clientExtensionResults: z.object({}).default({}),
}

/** A device's answer to being asked for a new key: RegistrationResponseJSON of Web Authentication level 3. */
export const newPasskey = z.object({
  ...credential,
  response: z.object({
    clientDataJSON: bytes,
    attestationObject: bytes,
    transports: z.array(z.string().max(40)).max(10).optional(),
  }),
})

/** A device's answer to being asked who is there: AuthenticationResponseJSON of the same. */
export const passkeyProof = z.object({
  ...credential,
  response: z.object({
    clientDataJSON: bytes,
    authenticatorData: bytes,
    signature: bytes,
    userHandle: bytes.nullish().transform((text) => text ?? undefined),
  }),
})

/** What a person calls one of their devices. */
export const passkeyName = z
  .string()
  .trim()
  .min(1, 'Enter a name for it, such as "my phone"')
  .max(60, 'The name must be 60 characters or fewer')

export const renameForm = z.object({ id: z.string().min(1), name: passkeyName })
export const removeForm = z.object({ id: z.string().min(1) })
