import type { Day } from '@/lib/domain/quantity/day'

/** One thing that is due, as a digest names it. */
export type DigestLine = { well: string; what: string; dueOn: Day }
export type Letter = { subject: string; text: string }
type Frame = {
  today: Day
  /** Writes a day. */
  show: (day: Day) => string
  outfit: { name: string; contact: string }
  /** Addresses: the page to open, and the one that switches these mails off. */
  site: string
  quiet: string
}

export type OwnerNews = {
  lines: readonly DigestLine[]
  /** Wells whose water has an open warning. */
  warned: readonly string[]
  /** Wells about which the outfit asks something. */
  asked: readonly string[]
  promised: readonly { well: string; on: Day | null }[]
}

/**
 * The mail to a household: what comes up at its own wells, in plain words. No result of a test stands in it, for mail is
 * read by others too. A warning comes first, in the subject too: what is due can wait.
 */
export function writeOwnerLetter(name: string, news: OwnerNews, frame: Frame): Letter {
  const { lines, warned, asked, promised } = news
  const { show, outfit } = frame
  const parts = [
    `Hello ${name},`,
    ...warned.map(
      (well) => `${well}: there is a warning about the water. Read it before you drink: ${frame.site}`,
    ),
    ...asked.map(
      (well) =>
        `${well}: the outfit has a question about what you sent in. You can answer here: ${frame.site}`,
    ),
    ...promised.map(
      ({ well, on }) => `${well}: the outfit plans to come${on === null ? '' : ` on ${show(on)}`}.`,
    ),
    ...(lines.length > 0 ? ['This is what comes up at your well.', byWell(lines, frame)] : []),
    `See your wells: ${frame.site}`,
    signed(outfit),
    `You get this mail because you have an account with the outfit that looks after your well. To get no more of them: ${frame.quiet}`,
  ]
  return { subject: ownerSubject(news, frame), text: `${parts.filter(Boolean).join('\n\n')}\n` }
}

function ownerSubject({ lines, warned, asked, promised }: OwnerNews, frame: Frame): string {
  if (warned.length > 0) return 'A warning about your water'
  const [line] = lines
  if (line && lines.length === 1) return `${line.well}: ${line.what}, ${when(line.dueOn, frame)}`
  if (lines.length > 1) return `${lines.length} things come up at your well`
  if (asked.length > 0) return 'A question about what you sent in'
  return promised.length > 0 ? 'A visit to your well is planned' : 'News of your well'
}

export type OfficeNews = {
  /** Newly told, those that matter most first. */
  lines: readonly (DigestLine & { household: string | null })[]
  /** How many visits households wait for, and those not told yet. */
  waiting: number
  visits: readonly { well: string; urgent: boolean; says: string }[]
  /** How many lines of households nobody has looked at. */
  looks: number
  /** Mails that did not go out. */
  troubles: number
}

/** More lines than this nobody reads in a mail: the rest stands on the due list. */
const LISTED = 40

/** The mail to the office: what is newly due across the fleet, and what households ask for. */
export function writeOfficeLetter(name: string, news: OfficeNews, frame: Frame): Letter {
  const { lines, visits, waiting, looks, troubles } = news
  const more = lines.length - LISTED
  const parts = [
    `Hello ${name},`,
    ...(visits.length > 0
      ? [
          'Newly asked for by households:',
          visits.map(({ well, urgent, says }) => `- ${urgent ? 'URGENT, ' : ''}${well}: ${says}`).join('\n'),
        ]
      : []),
    ...(waiting > visits.length ? [`Visits that households wait for, in all: ${waiting}.`] : []),
    ...(looks > 0 ? [`Sent in by households and not yet looked at: ${looks}.`] : []),
    ...(troubles > 0
      ? [`Mails that did not go out: ${troubles}. See what failed and why under Reminders.`]
      : []),
    ...(lines.length > 0
      ? [
          `Newly on the list: ${lines.length}.`,
          lines
            .slice(0, LISTED)
            .map(
              ({ well, household, what, dueOn }) =>
                `- ${[well, household].filter(Boolean).join(', ')}: ${what}, ${when(dueOn, frame)}`,
            )
            .join('\n'),
        ]
      : []),
    ...(more > 0 ? [`And ${more} more.`] : []),
    `All that is due: ${frame.site}`,
    `To get no more of these mails: ${frame.quiet}`,
  ]
  const counted = [
    lines.length > 0 ? `${lines.length} newly due` : '',
    visits.length > 0 ? `${visits.length === 1 ? 'a visit' : `${visits.length} visits`} asked for` : '',
  ].filter(Boolean)
  const urgent = visits.some((visit) => visit.urgent) ? 'Urgent: ' : ''
  return {
    subject: `${urgent}${counted.join(', ') || 'Wells'}`,
    text: `${parts.filter(Boolean).join('\n\n')}\n`,
  }
}

/** Of one well a household reads so many; the rest stands on its page. */
const LISTED_OF_WELL = 6

function byWell(lines: readonly DigestLine[], frame: Frame): string {
  const wells = [...new Set(lines.map(({ well }) => well))]
  return wells
    .map((well) => {
      const own = lines.filter((line) => line.well === well)
      const more = own.length - LISTED_OF_WELL
      return [
        `${well}:`,
        ...own.slice(0, LISTED_OF_WELL).map(({ what, dueOn }) => `- ${what}, ${when(dueOn, frame)}`),
        ...(more > 0 ? [`And ${more} more.`] : []),
      ].join('\n')
    })
    .join('\n\n')
}

function when(dueOn: Day, { today, show }: Frame): string {
  if (dueOn < today) return `was due on ${show(dueOn)}`
  return dueOn === today ? 'due today' : `due by ${show(dueOn)}`
}

function signed({ name, contact }: Frame['outfit']): string {
  return [name, contact].filter(Boolean).join('\n')
}
