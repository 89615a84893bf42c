import { RateLimiterMemory } from 'rate-limiter-flexible'

const FREE_TRIES = 5
const FIRST_WAIT_S = 1
const LONGEST_WAIT_S = 64
const FORGET_AFTER_S = 60 * 60

/**
 * Slows down whoever guesses the password of one account, from however many addresses.
 *
 * After five failures each further one doubles the wait, from 1 s to 64 s and no further, so that a guesser
 * can delay the rightful person but never shut them out. An hour without a failure forgets all of them.
 * Unknown accounts are counted like known ones. Kept in memory: a restart forgives.
 */
export class Patience {
  private readonly failures = new RateLimiterMemory({
    keyPrefix: 'failed',
    points: FREE_TRIES,
    duration: FORGET_AFTER_S,
  })
  private readonly waits = new RateLimiterMemory({ keyPrefix: 'wait', points: 1, duration: LONGEST_WAIT_S })

  /**
   * Asks for one try. Answers 0 where it may go ahead, otherwise the seconds to wait. The try counts as a
   * failure until `forgive` is called, so that tries sent all at once are counted before any is checked.
   */
  async secondsToWait(account: string): Promise<number> {
    const waiting = await this.waits.get(account)
    if (waiting && waiting.msBeforeNext > 0) return Math.ceil(waiting.msBeforeNext / 1000)
    const { consumedPoints } = await this.failures.penalty(account)
    await this.failures.set(account, consumedPoints, FORGET_AFTER_S)
    const beyond = consumedPoints - FREE_TRIES
    if (beyond >= 0) await this.waits.block(account, Math.min(FIRST_WAIT_S * 2 ** beyond, LONGEST_WAIT_S))
    return 0
  }

  /** The person proved who they are: their earlier failures are forgotten. */
  async forgive(account: string): Promise<void> {
    await this.failures.delete(account)
    await this.waits.delete(account)
  }
}
