import { isCommon } from './common-passwords'

/** From memory: guesses that lists begin with and the list used here does not hold. */
const REMEMBERED = new Set([
  'abcdefgh1234',
  'abcd1234abcd',
  'correcthorsebatterystaple',
  'incorrecthorse',
  'yourpassword',
])

/** Words of this place, its trade and of every lock: alone or with figures they are what a guesser tries. */
const OF_THIS_PLACE = [
  'wellround',
  'well',
  'water',
  'wells',
  'installer',
  'technician',
  'owner',
  'pump',
  'password',
  'passwort',
  'welcome',
  'letmein',
  'admin',
  'qwerty',
]

/** Rows of keys and figures that hands run along, both ways. */
const RUNS = [
  'abcdefghijklmnopqrstuvwxyz',
  '01234567890123456789',
  'qwertyuiopasdfghjklzxcvbnm',
  'qwertzuiopasdfghjklyxcvbnm',
]

/** Whether a password of enough characters is still one of the first that somebody would try. No network is asked. */
export function easilyGuessed(password: string): boolean {
  const plain = password.toLowerCase()
  return (
    REMEMBERED.has(plain) ||
    isMadeOfCommon(plain) ||
    /^(.{1,4})\1+.{0,3}$/su.test(plain) ||
    isRun(plain) ||
    isOnlyWordsOfThisPlace(plain)
  )
}

/**
 * A password of the list; one with figures or signs before and after it; or two of the list in a row. Few of the list are twelve
 * characters long: this is how people make the others so.
 */
function isMadeOfCommon(plain: string): boolean {
  if (coresOf(plain).some(isCommon)) return true
  if (plain.length > LONGEST_PAIR) return false
  return [...plain].some((_, at) => isCommon(plain.slice(0, at)) && coresOf(plain.slice(at)).some(isCommon))
}

/** What may be left of a password without some of the figures and signs at its beginning and its end. */
function coresOf(plain: string): string[] {
  const before = /^[^\p{L}]*/u.exec(plain)?.[0].length ?? 0
  const after = /[^\p{L}]*$/u.exec(plain)?.[0].length ?? 0
  const upTo = (length: number) => Array.from({ length: Math.min(length, LONGEST_TRIM) + 1 }, (_, n) => n)
  return upTo(before).flatMap((from) => upTo(after).map((to) => plain.slice(from, plain.length - to)))
}

/** As many figures and signs as people put beside a word. */
const LONGEST_TRIM = 8

/** Two common passwords in a row: longer ones are phrases, which may hold common words. */
const LONGEST_PAIR = 20

function isRun(plain: string): boolean {
  const letters = plain.replace(/[^a-z0-9]/g, '')
  if (letters.length < plain.length - 2) return false
  return RUNS.some((run) =>
    [run, [...run].reverse().join('')].some((each) => each.repeat(2).includes(letters)),
  )
}

function isOnlyWordsOfThisPlace(plain: string): boolean {
  const letters = plain.replace(/[^\p{L}]/gu, '')
  const rest = OF_THIS_PLACE.reduce((text, word) => text.replaceAll(word, ''), letters)
  return letters.length > 0 && rest.length === 0
}
