import type { Mail } from './mailer'

type Outfit = { name: string; contact: string }

/** Who writes, as the outfit calls itself; a name must not end the line that it stands in. */
const signed = ({ name, contact }: Outfit) =>
  [name || 'The outfit that looks after your well', contact].filter(Boolean).join(', ')

const oneLine = (text: string) => text.replace(/\s+/g, ' ').trim()

/** The mail to whoever forgot their password. `link` is made of the configured address. */
export function resetMail(
  person: { to: string; name: string },
  link: string,
  minutes: number,
  outfit: Outfit,
): Mail {
  return {
    to: person.to,
    subject: 'A new password for your well pages',
    text: `Hello ${oneLine(person.name)},

somebody, most likely you, asked for a new password. Open this link within ${minutes} minutes and choose one:

${link}

It works once. If you did not ask for it, do nothing: your password stays as it is.

${signed(outfit)}
`,
  }
}

/** The mail that brings a card's code as a link. */
export function invitationMail(
  to: string,
  card: { forName: string; household: string; link: string; untilDay: string },
  outfit: Outfit,
): Mail {
  return {
    to,
    subject: 'Your well, on your phone',
    text: `Hello ${oneLine(card.forName)},

with this link you make your own way in to the pages of your well (${oneLine(card.household)}):

${card.link}

There you read what was done at it and what the water tests said, and send
in readings and lab sheets. The link works once, for one person,
until ${card.untilDay}. Give it to nobody else.

${signed(outfit)}
`,
  }
}
