'use server'

import { revalidatePath } from 'next/cache'
import { notFound } from 'next/navigation'
import { qrPath } from '@/app/ui/qr-code'
import type { QrPath } from '@/app/ui/qr-picture'
import { deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { now } from '@/lib/clock'
import { inviteForm, takeBackForm } from '@/lib/forms/accounts'
import { type FormState, parseForm } from '@/lib/forms/form'
import { sendMail } from '@/lib/mail/mailer'
import { invitationMail } from '@/lib/mail/people-mails'
import { paths } from '@/lib/paths'
import { siteUrl } from '@/lib/records/auth'
import { invite, revokeInvitation } from '@/lib/records/invitations'
import { endMembership } from '@/lib/records/memberships'
import { getDb } from '@/lib/records/open'
import { getOutfit, type Outfit } from '@/lib/records/settings'

/** A form that, once accepted, shows the card it made: the one time the code can be read. */
export type InviteState = FormState & {
  card?: { forName: string; code: string; link: string; site: string; untilDay: string; qr: QrPath }
}

/** Makes a card for one person of a household. */
export async function makeCard(_before: InviteState, form: FormData): Promise<InviteState> {
  const viewer = await deskViewer()
  const parsed = parseForm(inviteForm, form)
  if (!parsed.ok) return parsed.state
  const { ownerId, forName, email } = parsed.value
  const db = await getDb()
  const made = await invite(db, viewer, ownerId, forName, now())
  if (!made) notFound()
  revalidatePath(paths.household(ownerId))
  // The address of the site is the configured one, never what the request says it is.
  const card = {
    forName,
    code: made.code,
    link: `${siteUrl()}${paths.join(made.code)}`,
    site: `${siteUrl()}${paths.join()}`,
    untilDay: showDay(made.expiresAt.slice(0, 10), viewer.units),
  }
  const sent = email === '' ? '' : await mailed(email, { ...card, household: made.household }, getOutfit(db))
  return {
    typed: {},
    errors: {},
    done: `The card is made. Its code is shown only now. ${sent}`.trim(),
    card: { ...card, qr: qrPath(card.link) },
  }
}

/** Sends the link, and says in a sentence what became of it: the card stands whatever the mail does. */
async function mailed(
  to: string,
  card: Parameters<typeof invitationMail>[1],
  outfit: Outfit,
): Promise<string> {
  const outcome = await sendMail(invitationMail(to, card, outfit))
  if (outcome.kind === 'failed') return `The mail to ${to} could not be sent: ${outcome.reason}`
  if (outcome.kind === 'unsure') return `Whether the mail to ${to} went out is not known: ${outcome.reason}`
  return outcome.where === 'outbox'
    ? `No mail server is set: the mail to ${to} lies in the outbox folder.`
    : `The link was sent to ${to}.`
}

/** Takes a card back that nobody has used yet. */
export async function takeBack(form: FormData): Promise<void> {
  const viewer = await deskViewer()
  const parsed = parseForm(takeBackForm, form)
  if (!parsed.ok) notFound()
  await revokeInvitation(await getDb(), viewer, parsed.value.id, now())
  revalidatePath(paths.household(parsed.value.ownerId))
}

/** Takes a person out of a household. Their account stays, for whatever other household they belong to. */
export async function takeOut(form: FormData): Promise<void> {
  const viewer = await deskViewer()
  const parsed = parseForm(takeBackForm, form)
  if (!parsed.ok) notFound()
  const { id, ownerId } = parsed.value
  const outcome = await endMembership(await getDb(), viewer, id, ownerId, now())
  if (outcome !== 'done') notFound()
  revalidatePath(paths.household(ownerId))
}
