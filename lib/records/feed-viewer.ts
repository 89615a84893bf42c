import { RateLimiterMemory, RateLimiterRes } from 'rate-limiter-flexible'
import type { Viewer } from '@/lib/access/viewer'
import type { Db } from './db'
import { userOfFeedToken } from './mail-choice'
import { householdIdsOf } from './memberships'
import { roleOf } from './sessions'

const HOUR_S = 60 * 60
/** A calendar program asks a few times a day; more than this in an hour is no calendar program. */
export const FEEDS_AN_HOUR = 60
const perFeed = new RateLimiterMemory({ keyPrefix: 'feed', points: FEEDS_AN_HOUR, duration: HOUR_S })
/** Addresses that lead nowhere, all together: slows whoever guesses, and nobody who knows theirs. */
export const WRONG_FEEDS_A_MINUTE = 300
const wrong = new RateLimiterMemory({ keyPrefix: 'feed-wrong', points: WRONG_FEEDS_A_MINUTE, duration: 60 })

export type FeedViewer =
  | { kind: 'found'; viewer: Viewer }
  | { kind: 'absent' }
  | { kind: 'wait'; seconds: number }

/** As whom a calendar address is read: its person, with what they may see at this moment. */
export async function feedViewer(db: Db, token: string): Promise<FeedViewer> {
  const userId = userOfFeedToken(db, token)
  const seconds = await secondsToWait(userId === null ? wrong : perFeed, userId ?? 'all')
  if (seconds > 0) return { kind: 'wait', seconds }
  const user = userId === null ? null : await db.prisma.user.findUnique({ where: { id: userId } })
  if (!user || user.disabled) return { kind: 'absent' }
  const role = roleOf(user.role)
  return {
    kind: 'found',
    viewer: {
      userId: user.id,
      name: user.name,
      role,
      ownerIds: role === 'owner' ? householdIdsOf(db, user.id) : [],
      units: user.units === 'metric' ? 'metric' : 'us',
    },
  }
}

async function secondsToWait(limiter: RateLimiterMemory, key: string): Promise<number> {
  try {
    await limiter.consume(key)
    return 0
  } catch (refusal) {
    if (!(refusal instanceof RateLimiterRes)) throw refusal
    return Math.max(1, Math.ceil(refusal.msBeforeNext / 1000))
  }
}
