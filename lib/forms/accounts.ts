import { z } from 'zod'
import { easilyGuessed } from './password-rules'

export const PASSWORD_MIN = 12
export const PASSWORD_MAX = 128
const NAME_MAX = 80
const EMAIL_MAX = 254

const personName = z
  .string()
  .trim()
  .min(1, 'Enter the name that stands beside the work in the logbook')
  .max(NAME_MAX, `The name must be ${NAME_MAX} characters or fewer`)

/** Addresses are compared in lower case: the same person types theirs both ways. */
const email = z
  .string()
  .trim()
  .toLowerCase()
  .min(1, 'Enter an email address')
  .max(EMAIL_MAX, `The email address must be ${EMAIL_MAX} characters or fewer`)
  .pipe(z.email('Enter an email address like name@example.com'))

/** Never trimmed and of any characters: a password is taken exactly as typed or pasted. */
const newPassword = z
  .string()
  .min(1, 'Enter a password')
  .min(
    PASSWORD_MIN,
    `The password must be ${PASSWORD_MIN} characters or longer; a few words in a row do well`,
  )
  .max(PASSWORD_MAX, `The password must be ${PASSWORD_MAX} characters or fewer`)
  .refine(
    (text) => !easilyGuessed(text),
    'This is one of the first that somebody would guess. Take a few words in a row',
  )

export const signInForm = z.object({
  email,
  password: z
    .string()
    .min(1, 'Enter your password')
    .max(PASSWORD_MAX, 'The email address or the password does not match'),
  next: z.string(),
})

export const firstRunForm = z.object({ name: personName, email, password: newPassword })

export const passwordForm = z.object({
  current: z.string().min(1, 'Enter the password you have now'),
  fresh: newPassword,
})

export const profileForm = z.object({
  name: personName,
  units: z.enum(['us', 'metric'], 'Choose US or metric units'),
})

export const personForm = z.object({
  name: personName,
  email,
  role: z.enum(['installer', 'technician'], 'Choose installer or technician'),
  password: newPassword,
})

/** Whom a card or a link is meant for. */
export const inviteForm = z.object({
  ownerId: z.string().min(1),
  forName: personName,
  /** Blank: a card to print. Else the link goes there too. */
  email: z.union([z.literal(''), email], {
    error: 'Enter an email address like name@example.com, or leave it blank',
  }),
})

export const takeBackForm = z.object({ id: z.string().min(1), ownerId: z.string().min(1) })

const cardCode = z
  .string()
  .trim()
  .min(1, 'Enter the code of your card')
  .max(40, 'A code has 16 letters and figures')

/** The card of another household, typed by somebody who has an account. */
export const addHouseholdForm = z.object({ code: cardCode })

/** What the holder of a card fills in. */
export const joinForm = z.object({
  code: cardCode,
  name: personName,
  email,
  password: newPassword,
})

const OUTFIT_TEXT_MAX = 200

/** The outfit as printed on sheets. Blank is allowed: nothing is then printed. */
export const outfitForm = z.object({
  name: z.string().trim().max(OUTFIT_TEXT_MAX, `The name must be ${OUTFIT_TEXT_MAX} characters or fewer`),
  contact: z
    .string()
    .trim()
    .max(OUTFIT_TEXT_MAX, `The contact must be ${OUTFIT_TEXT_MAX} characters or fewer`),
})

/**
 * Where to go after signing in: a path of this site, or the front page. Anything that a browser could
 * read as another site (`//host`, a backslash, a scheme) gives the front page.
 */
export function localPath(next: string): string {
  const plain = /^\/(?![/\\])[\w\-./?=&%,:+~]*$/.test(next)
  return plain ? next : '/'
}

/** Lets a person in or shuts them out: sent by a button, so a complaint is never shown. */
export const switchForm = z.object({ id: z.string().min(1), to: z.enum(['in', 'out']) })

export const resetForm = z.object({ id: z.string().min(1), password: newPassword })

/** Whoever forgot their password says whose it was. */
export const forgotForm = z.object({ email })

/** A card or a link for a new password, and the password. */
export const newPasswordForm = z.object({
  code: z.string().trim().min(1, 'Enter the code of your card').max(60, 'A code has 16 letters and figures'),
  password: newPassword,
})

/** Sent by a button beside a person, a session: a complaint is never shown. */
export const idForm = z.object({ id: z.string().min(1) })

export const roleForm = z.object({ id: z.string().min(1), role: z.enum(['installer', 'technician']) })
