import { readFileSync } from 'node:fs'
import { RULES } from '@/lib/access/rules'
import { ROLES } from '@/lib/access/viewer'
import {
  ATTACHMENT_BYTES_MAX,
  BATCH_BYTES_MAX,
  DOOR_BYTES_MAX,
  FILE_BYTES_MAX,
  FORM_BYTES_MAX,
  sayBytes,
} from '@/lib/domain/limits'
import { ITEMS_MAX } from '@/lib/exchange/batch/limits'
import { EXPORTS_AT_ONCE } from '@/lib/exchange/export-slots'
import { COLUMNS_MAX, ROWS_MAX } from '@/lib/exchange/table'
import { PARTS_MAX, UNPACKED_BYTES_MAX } from '@/lib/exchange/unpack'
import { KEPT_MS } from '@/lib/exchange/uploads'
import { PASSWORD_MAX, PASSWORD_MIN } from '@/lib/forms/accounts'
import { PIXELS_MAX } from '@/lib/records/attachment-content'
import { SESSION_DAYS } from '@/lib/records/auth'
import { FREE_CODES } from '@/lib/records/code-patience'
import { COUNT_MAX } from '@/lib/records/due-list'
import { FEEDS_AN_HOUR, WRONG_FEEDS_A_MINUTE } from '@/lib/records/feed-viewer'
import { INVITATION_DAYS } from '@/lib/records/invitations'
import { OWNER_EVENTS, OWNER_KINDS } from '@/lib/records/owner-entries'
import { COST } from '@/lib/records/passwords'
import { FREE_TRIES, LONGEST_WAIT_S } from '@/lib/records/patience'
import { DRAFTS_MAX } from '@/lib/records/record'
import { MAILS_AN_HOUR, RESET_CARD_DAYS, RESET_MAIL_MINUTES } from '@/lib/records/resets'
import { LINES_AN_HOUR, LOG_BYTES_MAX, SECURITY_EVENTS } from '@/lib/records/security-log'
import { FRESH_HOURS, IDLE_DAYS } from '@/lib/records/sessions'
import { OF_THE_WELL, PERSONAL } from '@/lib/records/shown-entries'
import { type Taken, WHOLE_TABLES } from '@/lib/records/whole-tables'
import { ACTIONS } from '../browser/role-table'

/**
 * The section "Security in tables" of DEVELOPERS.md, made from the constants that the program runs by. A test compares the two;
 * `node lib/cli/run.mjs tests/security/write-tables.ts` writes it anew.
 */
export const FROM = '<!-- tables: made by tests/security/tables.ts -->'
export const TO = '<!-- end of tables -->'

/** Rows of the table of the standard, as they stand in tests/security/asvs.md. */
export type AsvsRow = { id: string; asked: string; held: string }
export const asvsRows = (): AsvsRow[] =>
  readFileSync('tests/security/asvs.md', 'utf8')
    .split('\n')
    .filter((line) => /^\| V\d/.test(line))
    .map((line) => {
      const [id = '', asked = '', held = ''] = line
        .split('|')
        .slice(1)
        .map((cell) => cell.trim())
      return { id, asked, held }
    })

const EXCEPTION = 'exception: '
export const exceptions = (): AsvsRow[] => asvsRows().filter(({ held }) => held.startsWith(EXCEPTION))

const table = (head: readonly string[], rows: readonly (readonly (string | number)[])[]) =>
  [head, head.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n')
const code = (text: string) => `\`${text}\``
const count = (n: number) => n.toLocaleString('en-US')

const LIMITS: readonly (readonly [what: string, limit: string])[] = [
  [
    'table that is imported',
    `${sayBytes(FILE_BYTES_MAX)}, ${count(ROWS_MAX)} rows, ${COLUMNS_MAX} columns; waits at most ${KEPT_MS / 3_600_000} h`,
  ],
  ['workbook, unpacked', `${sayBytes(UNPACKED_BYTES_MAX)}, ${count(PARTS_MAX)} parts; no document type`],
  [
    'photo (JPEG, PNG, WebP; drawn anew as JPEG) or PDF (kept, only ever a download)',
    `${sayBytes(ATTACHMENT_BYTES_MAX)}, ${count(PIXELS_MAX)} points`,
  ],
  [
    'form, all files together',
    `${sayBytes(FORM_BYTES_MAX)}; of who is not signed in ${sayBytes(DOOR_BYTES_MAX)}`,
  ],
  ['batch from a phone', `${sayBytes(BATCH_BYTES_MAX)}, ${ITEMS_MAX} records`],
  ['lines of one visit', count(DRAFTS_MAX)],
  [
    'password',
    `${PASSWORD_MIN} to ${PASSWORD_MAX} characters, none of a list of leaked ones or made of them, no rule of composition, no expiry`,
  ],
  [
    'wrong passwords of one account',
    `${FREE_TRIES}, then 1 s to ${LONGEST_WAIT_S} s each; by account and not by address, so that no proxy is believed; never shut out for good`,
  ],
  [
    'wrong codes',
    `${FREE_CODES.account} an account, ${FREE_CODES.door} by all who are not signed in, then as above`,
  ],
  [
    'session',
    `${IDLE_DAYS} days unused, ${SESSION_DAYS} days in all: a phone in the woods cannot ask for a password each morning; any number at once, listed, ended one by one or all; a password asks for the old one, a passkey or a calendar address for a session no older than ${FRESH_HOURS} h`,
  ],
  ['card for a household', `once, ${INVITATION_DAYS} days`],
  [
    'new password',
    `link once, ${RESET_MAIL_MINUTES} minutes, ${MAILS_AN_HOUR} an hour; card once, ${RESET_CARD_DAYS} days`,
  ],
  [
    'calendar address',
    `${FEEDS_AN_HOUR} an hour; ${WRONG_FEEDS_A_MINUTE} wrong ones a minute by all together`,
  ],
  ['counts on lists', `up to ${count(COUNT_MAX)}`],
  ['exports at once', String(EXPORTS_AT_ONCE)],
  [
    'security log',
    `${LOG_BYTES_MAX / 1_000_000} MB and one file before it; ${LINES_AN_HOUR.person} lines an hour of one kind by one person, ${LINES_AN_HOUR.unknown} by all unknown`,
  ],
]

const COSTLY: readonly (readonly [what: string, defence: string])[] = [
  ['hashing a password', 'two at a time, the rest in line; tries are slowed by account'],
  ['reading a workbook', 'bounded before it is unpacked; installers alone'],
  ['import', 'checked first, one write at a time, progress by the page; installers alone'],
  ['export', 'written piece by piece, few at once; installers alone'],
  ['drawing a photo anew', 'points counted before it is unpacked; whoever may write to the well'],
  ['reckoning a well anew', 'within the write that changed it, one write at a time'],
  ['order of a round', 'bounded search (`lib/domain/place/rounds`)'],
  ['lists and maps', 'a page at a time from an index; counts stop'],
]

/** Where the program draws chance, hashes or signs. A file that does and is not named fails a test. */
export const CRYPTOGRAPHY: readonly (readonly [what: string, how: string, files: readonly string[]])[] = [
  [
    'passwords',
    `scrypt, N ${count(COST.N)}, r ${COST.r}, p ${COST.p}, salt of 128 bits; the cost stands with the hash, and an older one is made anew at sign-in`,
    ['lib/records/passwords.ts'],
  ],
  [
    'session cookies, passkeys',
    'token of 190 bits signed by HMAC-SHA-256; Web Authentication (better-auth)',
    ['lib/records/secret.ts'],
  ],
  [
    'cards; links for a new password',
    '80 bits typed by hand; 256 bits by mail; stored as SHA-256 under the word of their purpose',
    ['lib/records/invitation-code.ts', 'lib/records/resets.ts'],
  ],
  [
    'calendar address; link that switches mails off',
    '192 bits; HMAC-SHA-256 of the person; stored as SHA-256',
    ['lib/records/mail-choice.ts'],
  ],
  [
    'files, photos, batches, archives: whether they are whole',
    'SHA-256',
    [
      'app/_offline/keep-visit.ts',
      'app/_offline/sha256.ts',
      'lib/exchange/batch/photo.ts',
      'lib/exchange/uploads.ts',
      'lib/exchange/whole.ts',
      'lib/records/attachments.ts',
    ],
  ],
  [
    'leaked passwords',
    'first 40 bits of SHA-256',
    ['lib/cli/password-list.mjs', 'lib/forms/common-passwords.ts'],
  ],
  [
    'names of files and mails, ids, numbers of the content policy: no secrets',
    'chance of the system; SHA-256',
    [
      'lib/exchange/jobs.ts',
      'lib/mail/mailer.ts',
      'lib/mail/outbox.ts',
      'lib/records/file-store.ts',
      'lib/records/ids.ts',
      'proxy.ts',
    ],
  ],
  ['whether a build is fresh', 'SHA-256', ['lib/cli/build-offline.mjs', 'lib/cli/steps.mjs']],
]

/** Files that open a connection or listen. */
export const TALKERS: readonly string[] = ['lib/cli/start.mjs', 'lib/mail/mailer.ts']
const COMMUNICATIONS: readonly (readonly [who: string, what: string])[] = [
  [
    'browsers and phones, to the server',
    'pages, forms, batches; http on `localhost` unless `HOST` says otherwise, https by the server before it',
  ],
  ['calendar and mail programs, to the server', 'the private calendar; one press that switches mails off'],
  [
    'the server, to a mail server',
    'only where `WELLROUND_SMTP` names one: TLS with a checked certificate, to this machine plain; `WELLROUND_SMTP_PLAIN=yes` allows plain elsewhere (`lib/mail/mailer.ts`)',
  ],
  [
    'browsers, to a server of map tiles',
    'only where an installer names one; the content policy allows that host alone',
  ],
  [
    'the server, to anything else',
    'nothing: a test notes every connection of a served site (`tests/browser/shield.test.ts`)',
  ],
]

/** What the data folder may hold. */
export const DATA_FOLDER: readonly (readonly [name: string, what: string])[] = [
  ['wellround.db', 'the database, with `-wal` and `-shm` beside it'],
  ['files', 'photos and PDFs under names of chance'],
  ['uploads', 'tables that wait to be imported'],
  ['outbox', 'mail, where no mail server is set'],
  ['secret', 'signs session cookies'],
  ['security.log', 'and `security.1.log`'],
  ['reminders.lock', 'held while mail is sent'],
  ['demo-sign-ins.json', 'of the demo alone'],
]

type Class = { level: string; tables: readonly string[]; reads: string; kept: string }
/** Every table of the database in one class. */
export const CLASSES: readonly Class[] = [
  {
    level: 'secret: ways in',
    tables: ['Account', 'Session', 'Passkey', 'ResetCode', 'Verification'],
    reads: 'nobody; their person ends and renames them',
    kept: 'hashed where it can be; never in export, log or page; gone with the person or their day',
  },
  {
    level: 'personal: who',
    tables: [
      'User',
      'Owner',
      'Membership',
      'Grant',
      'Invitation',
      'MailChoice',
      'Mailing',
      'Reminder',
      'Matter',
    ],
    reads: 'the outfit; their person',
    kept: 'until forgotten; export without what stands for a secret; never on a phone but the name of a well’s household',
  },
  {
    level: 'about homes: water, place, way in',
    tables: [
      'Well',
      'WellWord',
      'Part',
      'Duty',
      'Entry',
      'Attachment',
      'Standing',
      'DueItem',
      'FittedItem',
      'Plate',
    ],
    reads: 'the outfit; the household that holds the well',
    kept: 'with the well; export; on a phone what was taken along, seven days',
  },
  {
    level: 'of the outfit',
    tables: [
      'PumpModel',
      'CartridgeModel',
      'Round',
      'Stop',
      'StockItem',
      'StockEntry',
      'Batch',
      'Setting',
      'FleetTally',
    ],
    reads: 'the outfit',
    kept: 'for good; export',
  },
  {
    level: 'evidence',
    tables: ['Change'],
    reads: 'installers',
    kept: 'for ever, refuses UPDATE and DELETE; blanked where a person is forgotten',
  },
]

/** What a household sees of its own well: the keys of `ownWell`. */
export const OWN_WELL_FIELDS = [
  'id',
  'label',
  'name',
  'standing',
  'visits',
  'samples',
  'matters',
  'levels',
  'tank',
]

const exported = (names: readonly string[]) => {
  const taken = (name: string): Taken | undefined => (WHOLE_TABLES as Readonly<Record<string, Taken>>)[name]
  const left = names.filter((name) => {
    const how = taken(name)
    return how !== undefined && 'not' in how
  })
  return left.length === 0 ? 'whole' : left.length === names.length ? 'stays' : `without ${left.join(', ')}`
}

/** Actions open to people of whom nothing is known. */
export const DOORS = Object.entries(ACTIONS)
  .filter(([, asks]) => asks === 'nobody')
  .map(([name]) => name.split('#')[1] ?? '')
  .sort()

const MENDING =
  'A fault in a package that is being used against others is mended within 2 days of being known, a critical one within 7, any other within 30; floors stand in `tests/structure.test.ts`. The inventory of packages is `package-lock.json`, with the version and hash of each; `npm sbom --sbom-format cyclonedx --package-lock-only` writes it in a common form.'
const KEYS =
  'The sign-in secret has no end of its own. Exchange it when somebody leaves who could read the data folder, or when a copy was lost: stop, remove `secret` from the data folder, start. Everybody signs in again, the links that switch mails off are new from the next mail on, nothing else changes (`tests/records/keys.test.ts`). Its owner is whoever runs the server.'

/** The whole section, from its first mark to its last. */
export function securityTables(): string {
  const parts = [
    FROM,
    'Limits, from the constants that the program runs by (a refusal says the limit):',
    table(['what', 'limit'], LIMITS),
    `Ways to sign in: a password or a passkey, both ending in the same session; no third. A passkey proves device and person, a password is slowed and long. Actions open to everybody: ${DOORS.map(code).join(', ')}.`,
    'Who may do what (`lib/access/rules.ts`):',
    table(
      ['action', ...ROLES],
      Object.entries(RULES).map(([action, row]) => [code(action), ...ROLES.map((role) => row[role])]),
    ),
    `Fields of a well that its household reads: ${OWN_WELL_FIELDS.map(code).join(', ')}, and nothing else of the register: no gate code, way in, hazard or note of the desk. Lines that it writes: ${[...OWNER_KINDS, ...OWNER_EVENTS].map(code).join(', ')}. Lines from before it held the well: ${OF_THE_WELL.map(code).join(', ')}, and these without ${Object.keys(PERSONAL).map(code).join(', ')}. A former household reads what the outfit granted, as it stood then. Technicians read all of wells and write lines; settings, people, imports and exports are the installers’. The change record is read by installers, with a well.`,
    'Data by class:',
    table(
      ['class', 'tables', 'who reads', 'how kept', 'export'],
      CLASSES.map(({ level, tables, reads, kept }) => [
        level,
        tables.join(', '),
        reads,
        kept,
        exported(tables),
      ]),
    ),
    'The data folder (0700) holds, each readable by its owner only, and nothing else:',
    table(
      ['name', 'what'],
      DATA_FOLDER.map(([name, what]) => [code(name), what]),
    ),
    'Cryptography; nothing is encrypted by this program, and a file that uses any and is not named here fails a test:',
    table(
      ['for', 'by', 'where'],
      CRYPTOGRAPHY.map(([what, how, files]) => [what, how, files.map(code).join(', ')]),
    ),
    KEYS,
    'Communications:',
    table(['who', 'what'], COMMUNICATIONS),
    'Costly functions, and what bounds them:',
    table(['function', 'bound'], COSTLY),
    'Lines of the security log (`at` in UTC, `what`, `by` an id, `about`, `unsaid` how many were left out):',
    table(
      ['what', 'when'],
      Object.entries(SECURITY_EVENTS).map(([what, when]) => [code(what), when]),
    ),
    MENDING,
    `The exceptions, ${exceptions().length} of 190 rows:`,
    table(
      ['row', 'what is asked', 'why not'],
      exceptions().map(({ id, asked, held }) => [id, asked, held.slice(EXCEPTION.length)]),
    ),
    TO,
  ]
  return parts.join('\n\n')
}
