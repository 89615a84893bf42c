import { RateLimiterMemory } from 'rate-limiter-flexible'

/** Failures of a password before the first wait. */
export const FREE_TRIES = 5
const FIRST_WAIT_S = 1
export const LONGEST_WAIT_S = 64
const FORGET_AFTER_S = 60 * 60

/**
 * Slows down whoever guesses the password of one account, or codes, from however many addresses.
 *
 * After the free failures (five of a password) each further one doubles the wait, from 1 s to 64 s and no further, so that a guesser
 * can delay the rightful person but never shut them out. An hour without a failure forgets all of them.
 * Unknown accounts are counted like known ones. Kept in memory: a restart forgives.
 */
export class Patience {
  private readonly failures: RateLimiterMemory
  private readonly waits = new RateLimiterMemory({ keyPrefix: 'wait', points: 1, duration: LONGEST_WAIT_S })

  /** `free` failures cost no wait. */
  constructor(private readonly free: number = FREE_TRIES) {
    this.failures = new RateLimiterMemory({ keyPrefix: 'failed', points: free, duration: FORGET_AFTER_S })
  }

  /**
   * Asks for one try. Answers 0 where it may go ahead, otherwise the seconds to wait. The try counts as a
   * failure until `forgive` is called, so that tries sent all at once are counted before any is checked.
   */
  async secondsToWait(account: string): Promise<number> {
    const waiting = await this.waits.get(account)
    if (waiting && waiting.msBeforeNext > 0) return Math.ceil(waiting.msBeforeNext / 1000)
    const { consumedPoints } = await this.failures.penalty(account)
    await this.failures.set(account, consumedPoints, FORGET_AFTER_S)
    const beyond = consumedPoints - this.free
    if (beyond >= 0) await this.waits.block(account, Math.min(FIRST_WAIT_S * 2 ** beyond, LONGEST_WAIT_S))
    return 0
  }

  /** The person proved who they are: their earlier failures are forgotten. */
  async forgive(account: string): Promise<void> {
    await this.failures.delete(account)
    await this.waits.delete(account)
  }
}
