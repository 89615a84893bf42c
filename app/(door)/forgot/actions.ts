'use server'

import { after } from 'next/server'
import { now } from '@/lib/clock'
import { forgotForm } from '@/lib/forms/accounts'
import { type FormState, parseForm } from '@/lib/forms/form'
import { sendMail } from '@/lib/mail/mailer'
import { resetMail } from '@/lib/mail/people-mails'
import { paths } from '@/lib/paths'
import { siteUrl } from '@/lib/records/auth'
import { getDb } from '@/lib/records/open'
import { makeMailReset, RESET_MAIL_MINUTES } from '@/lib/records/resets'
import { getOutfit } from '@/lib/records/settings'

/**
 * Takes the address of whoever forgot their password. The answer is given before anything is looked up, so that neither its
 * words nor its time tell whether there is such an account.
 */
export async function askForReset(_before: FormState, form: FormData): Promise<FormState> {
  const parsed = parseForm(forgotForm, form)
  if (!parsed.ok) return parsed.state
  const { email } = parsed.value
  after(() => mailLink(email))
  return {
    typed: parsed.typed,
    errors: {},
    done: `If ${email} has an account here, a link is on its way. It is good for ${RESET_MAIL_MINUTES} minutes`,
  }
}

async function mailLink(email: string): Promise<void> {
  const db = await getDb()
  const reset = await makeMailReset(db, email, now())
  if (!reset) return
  // The address of the site is the configured one, never what a request says it is.
  const link = `${siteUrl()}${paths.reset(reset.code)}`
  const outcome = await sendMail(resetMail(reset, link, RESET_MAIL_MINUTES, getOutfit(db)))
  if (outcome.kind !== 'sent') console.error(`a mail with a reset link was not sent: ${outcome.reason}`)
}
