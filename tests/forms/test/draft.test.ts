import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  draftFrom,
  elapsedText,
  emptyDraft,
  newerDraft,
  readingsToSend,
  reduceTest,
  sayElapsed,
  stampS,
  type TestAct,
  type TestDraft,
} from '@/lib/forms/test/draft'
import { nextReadingS } from '@/lib/forms/test/schedule'

const VISIT = '019a0000-0000-7000-8000-0000000000aa'
const START = Date.UTC(2026, 10, 20, 9, 0, 0)
const started = (...acts: TestAct[]): TestDraft =>
  [{ type: 'start', atMs: START, date: '2026-11-20', time: '09:00' } as const, ...acts].reduce(
    reduceTest,
    emptyDraft(VISIT),
  )
const tap = (afterS: number): TestAct => ({ type: 'tap', atMs: START + afterS * 1000 })
const times = (draft: TestDraft) => readingsToSend(draft).map((r) => elapsedText(draft, r))

describe('the clock of a test', () => {
  test('counts from the instant of the start, however long nobody looked', () => {
    expect(times(started(tap(30), tap(9 * 3600 + 5)))).toEqual(['30 s', '9 h 5 s'])
  })

  test('keeps its first start when the button is pressed twice, and takes day and time from it', () => {
    const draft = started({ type: 'start', atMs: START + 4000, date: '2026-11-21', time: '00:01' }, tap(30))
    expect(times(draft)).toEqual(['30 s'])
    expect(draft.fields).toEqual({ date: '2026-11-20', time: '09:00' })
  })

  test('takes a bouncing thumb for one reading, and a tap before the start for none', () => {
    expect(started(tap(30), tap(30.4)).readings).toHaveLength(1)
    expect(started(tap(30), tap(31)).readings).toHaveLength(2)
    expect(reduceTest(emptyDraft(VISIT), tap(1)).readings).toEqual([])
  })

  test('is set back only while no reading hangs on it', () => {
    expect(started({ type: 'take-back-start' }).startedAtMs).toBeNull()
    expect(started(tap(5), { type: 'take-back-start' }).startedAtMs).toBe(START)
  })

  test('tells a reading of a clock that was set back as it is', () => {
    const draft = started(tap(-3))
    expect(draft.readings.map((r) => stampS(draft, r))).toEqual([-3])
    expect(times(draft)).toEqual(['-3 s'])
  })
})

describe('a reading', () => {
  test('is stamped first; its level comes later, in any order', () => {
    const draft = started(tap(30), tap(60), { type: 'level', id: 1, text: '8.6' })
    expect(readingsToSend(draft).map((r) => r.level)).toEqual(['8.6', ''])
  })

  test('keeps its stamp under a corrected time, which comes back when the correction is cleared', () => {
    const corrected = started(tap(30), { type: 'elapsed', id: 1, text: '25 s' })
    expect(times(corrected)).toEqual(['25 s'])
    expect(times(reduceTest(corrected, { type: 'elapsed', id: 1, text: '' }))).toEqual(['30 s'])
  })

  test('that is struck is not sent, and can be put back as it was', () => {
    const struck = started(tap(30), tap(60), { type: 'strike', id: 1 })
    expect(times(struck)).toEqual(['1 min'])
    expect(times(reduceTest(struck, { type: 'put-back', id: 1 }))).toEqual(['30 s', '1 min'])
  })

  test('added by hand and left blank is not sent', () => {
    expect(readingsToSend(started({ type: 'row' }))).toEqual([])
    expect(times(started({ type: 'row', elapsed: '5', level: '7.1' }))).toEqual(['5'])
  })
})

describe('of two copies that the device kept', () => {
  const other = '019a0000-0000-7000-8000-0000000000ab'

  test('of one test, the one that has seen more goes on', () => {
    const less = started(tap(30))
    const more = reduceTest(less, { type: 'level', id: 1, text: '8.6' })
    expect(newerDraft(less, more)).toBe(more)
    expect(newerDraft(more, less)).toBe(more)
    // A draft of before acts were counted.
    const { acts: _, ...old } = more
    expect(newerDraft(old, less)).toBe(less)
  })

  test('of two tests, the one that was begun later, however little was done in it', () => {
    const before = started(tap(30), tap(60), tap(90))
    const after = emptyDraft(other)
    expect(newerDraft(before, after)).toBe(after)
    expect(newerDraft(after, before)).toBe(after)
  })

  test('the one that is there, where the other is lost', () => {
    const one = started(tap(30))
    expect(newerDraft(null, one)).toBe(one)
    expect(newerDraft(one, null)).toBe(one)
    expect(newerDraft(null, null)).toBeNull()
  })

  test('an act that changes nothing makes neither of them newer', () => {
    const one = started(tap(30))
    expect(reduceTest(one, tap(30.2))).toBe(one)
  })
})

const acts = fc.oneof(
  fc.record({ type: fc.constant('tap' as const), atMs: fc.integer({ min: START, max: START + 1e8 }) }),
  fc.record({ type: fc.constant('level' as const), id: fc.integer({ min: 1, max: 9 }), text: fc.string() }),
  fc.record({ type: fc.constant('elapsed' as const), id: fc.integer({ min: 1, max: 9 }), text: fc.string() }),
  fc.record({ type: fc.constant('strike' as const), id: fc.integer({ min: 1, max: 9 }) }),
  fc.record({ type: fc.constant('put-back' as const), id: fc.integer({ min: 1, max: 9 }) }),
  fc.record({ type: fc.constant('field' as const), name: fc.string(), text: fc.string() }),
)

test('what the device holds reads back as it was, after any acts, and a reload between any two changes nothing', () => {
  fc.assert(
    fc.property(fc.array(acts, { maxLength: 30 }), (list) => {
      const straight = list.reduce(reduceTest, started())
      const reloaded = list.reduce((draft: TestDraft, act) => {
        const back = draftFrom(JSON.stringify(draft))
        if (!back) throw new Error('a draft did not read back')
        return reduceTest(back, act)
      }, started())
      expect(JSON.stringify(reloaded)).toBe(JSON.stringify(straight))
      expect(new Set(straight.readings.map((r) => r.id)).size).toBe(straight.readings.length)
    }),
  )
})

test('no act ever takes a reading away', () => {
  fc.assert(
    fc.property(fc.array(acts, { maxLength: 30 }), (list) => {
      let most = 0
      list.reduce((draft: TestDraft, act) => {
        const next = reduceTest(draft, act)
        expect(next.readings.length).toBeGreaterThanOrEqual(most)
        most = next.readings.length
        return next
      }, started())
    }),
  )
})

test.each([null, '', '{', 'null', '[]', '{"visitId":1}', '{"visitId":"a","startedAtMs":null,"fields":{}}'])(
  '%s is no draft',
  (text) => {
    expect(draftFrom(text)).toBeNull()
  },
)

test.each([
  [0, '0 s'],
  [59, '59 s'],
  [60, '1 min'],
  [95, '1 min 35 s'],
  [3600, '1 h'],
  [3725, '1 h 2 min 5 s'],
])('%d s is written %s', (seconds, text) => {
  expect(sayElapsed(seconds)).toBe(text)
})

// Kruseman & de Ridder 1994, ch. 2, intervals in the pumped well (from memory): to 5 min each half minute,
// to 60 min every 5, to 120 min every 20, then hourly.
test.each([
  [null, 30],
  [2, 30],
  [28, 60],
  [270, 300],
  [300, 600],
  [3600, 4800],
  [7200, 10_800],
])('after a reading at %s s the next is suggested at %d s', (last, next) => {
  expect(nextReadingS(last)).toBe(next)
})
