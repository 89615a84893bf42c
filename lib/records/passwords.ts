import { randomBytes, randomInt, type ScryptOptions, scrypt, timingSafeEqual } from 'node:crypto'
import { availableParallelism } from 'node:os'

/**
 * Cost of a password hash: one of the scrypt rows of equal strength in the OWASP Password Storage
 * Cheat Sheet (N = 2^15, r = 8, p = 3; 32 MiB each).
 */
export const COST = { N: 2 ** 15, r: 8, p: 3 } as const
const SALT_BYTES = 16
const KEY_BYTES = 32
const FORMAT = /^scrypt\$(\d+)\$(\d+)\$(\d+)\$([\w-]+)\$([\w-]+)$/

/**
 * Hashes a password for storing: `scrypt$N$r$p$salt$key`, the last two in base64url. The cost stands in the
 * text, so that it can be raised later without losing anybody's password.
 */
export async function hashPassword(password: string): Promise<string> {
  const salt = randomBytes(SALT_BYTES)
  const key = await derive(password, salt, KEY_BYTES, COST)
  return ['scrypt', COST.N, COST.r, COST.p, salt.toString('base64url'), key.toString('base64url')].join('$')
}

/**
 * Whether a password belongs to a stored hash, compared in constant time.
 * Throws where the stored text is not of our making.
 */
export async function passwordMatches(password: string, stored: string): Promise<boolean> {
  const [, n, r, p, salt, key] = FORMAT.exec(stored) ?? []
  if (!n || !r || !p || !salt || !key) throw new Error('a stored password hash has an unknown form')
  const expected = Buffer.from(key, 'base64url')
  const cost = { N: Number(n), r: Number(r), p: Number(p) }
  const actual = await derive(password, Buffer.from(salt, 'base64url'), expected.length, cost)
  return timingSafeEqual(actual, expected)
}

/** Whether a stored hash was made at another cost than today's: it is made anew when its person signs in. */
export function isOutdated(stored: string): boolean {
  return !stored.startsWith(`scrypt$${COST.N}$${COST.r}$${COST.p}$`)
}

type Cost = { N: number; r: number; p: number }

/** Unicode forms that look alike count as the same password, whatever the keyboard made of them. */
async function derive(password: string, salt: Buffer, bytes: number, cost: Cost): Promise<Buffer> {
  // scrypt needs 128 * N * r bytes and refuses to start without room above that.
  const options: ScryptOptions = { ...cost, maxmem: 256 * cost.N * cost.r }
  await enter()
  try {
    return await new Promise<Buffer>((resolve, reject) => {
      scrypt(password.normalize('NFKC'), salt, bytes, options, (error, key) =>
        error ? reject(error) : resolve(key),
      )
    })
  } finally {
    leave()
  }
}

// A flood of sign-ins must not fill the memory or starve the pages: the hashes wait for each other.
const AT_ONCE = Math.max(1, Math.min(2, availableParallelism() - 1))
let running = 0
const queue: (() => void)[] = []

function enter(): Promise<void> | void {
  if (running < AT_ONCE) {
    running += 1
    return
  }
  return new Promise((resolve) => queue.push(resolve))
}

/** Hands the place to the next in line, or frees it. */
function leave(): void {
  const next = queue.shift()
  if (next) next()
  else running -= 1
}

const WORDS =
  'alder anvil apron barley basin beech birch bramble brook bucket cedar chalk clover copper crane dairy fern flint garnet gravel hazel heron juniper kettle lantern larch ledge linen maple marsh mason meadow mortar nettle orchard otter pebble plover quarry reed ridge rowan saddle sedge shale sorrel spruce tallow thistle timber trellis twine valley walnut willow wicket'.split(
    ' ',
  )
const WORDS_IN_PASSWORD = 7

/** A new password to tell somebody: seven words of a short list, 40 bits, to be changed once they are in. */
export function drawPassword(): string {
  return Array.from({ length: WORDS_IN_PASSWORD }, () => WORDS[randomInt(WORDS.length)]).join('-')
}
