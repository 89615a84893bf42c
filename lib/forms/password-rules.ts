/**
 * Passwords of twelve characters and more that lists of guesses begin with; shorter ones are refused for their length.
 * From memory, with what such lists are made of; a list of all that ever leaked is not shipped.
 */
const GUESSED_FIRST = new Set(
  `1q2w3e4r5t6y 1qaz2wsx3edc 1qazxsw23edc qwertyuiop123 qwertyuiopasdf asdfghjkl123 zxcvbnm12345 qazwsxedcrfv
  passwordpassword password1234 password12345 passw0rd1234 p@ssw0rd1234 iloveyou1234 iloveyouforever letmeinletmein
  welcome12345 administrator adminadmin123 changeme1234 changemeplease trustno1trustno1 abcdefghijkl abcdefgh1234
  abcd1234abcd abc123abc123 football1234 baseball1234 superman1234 princess1234 sunshine1234 monkey123456 dragon123456
  master123456 michael12345 whatever1234 starwars1234 computer1234 internet1234 secret123456 thisismypassword
  correcthorsebatterystaple incorrecthorse mypassword123 yourpassword drowssapdrowssap`.split(/\s+/),
)

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
    GUESSED_FIRST.has(plain) ||
    /^(.{1,4})\1+.{0,3}$/su.test(plain) ||
    isRun(plain) ||
    isOnlyWordsOfThisPlace(plain)
  )
}

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
