import { describe, expect, test } from 'vitest'
import { NOTICE_ELEMENTS, type NoticeFacts, noticeKind, writeNotice } from '@/lib/domain/water/notice'

const FACTS: NoticeFacts = {
  well: 'Mill Spring well',
  causes: [{ chain: 'bacteria', name: 'E. coli', level: '12 in 100 mL', limit: 'none in 100 mL' }],
  sampledOn: '2025-06-02',
  doing: null,
  earliestEnd: '2025-06-22',
  clearNeeded: 2,
  contact: { name: 'Robin Fern', phone: '555 0100', address: '3 Mill Road' },
  locale: 'en-US',
}
const cause = (chain: string, name = chain) => ({ chain, name, level: '22', limit: '10' })
const CHAINS = [
  'bacteria',
  'nitrate',
  'lead',
  'copper',
  'arsenic',
  'fluoride',
  'manganese',
  'uranium',
  'benzene',
  'radium-226-228',
  'pfoa',
  'boron',
  'atrazine',
]
const write = (...chains: string[]) => {
  const notice = writeNotice({ ...FACTS, causes: chains.map((chain) => cause(chain)) })
  if (notice.kind === 'cannot-say') throw new Error(notice.need.join())
  return notice
}

describe('notices', () => {
  test.each(CHAINS)('%s: all ten elements of 40 CFR 141.205(a), in order', (chain) => {
    const notice = write(chain)
    expect(NOTICE_ELEMENTS).toHaveLength(10)
    let at = 0
    for (const element of NOTICE_ELEMENTS) {
      const place = notice.text.indexOf(notice.elements[element], at)
      expect(place, element).toBeGreaterThanOrEqual(at)
      at = place + notice.elements[element].length
    }
  })
  test('each element says its thing', () => {
    const notice = writeNotice(FACTS)
    if (notice.kind === 'cannot-say') throw new Error('a notice')
    const { elements } = notice
    expect(elements.found).toBe(
      'E. coli was found in the water of Mill Spring well: 12 in 100 mL. The limit is none in 100 mL.',
    )
    expect(elements.when).toContain('June 2, 2025')
    expect(elements.effects).toContain('cramps')
    expect(elements.atRisk).toContain('Babies')
    expect(elements.otherWater).toContain('bottled water')
    expect(elements.whatToDo).toContain('See a doctor')
    expect(elements.doing).toContain('chlorine')
    expect(elements.until).toContain('June 22, 2025')
    expect(elements.contact).toContain('555 0100')
    expect(elements.passOn).toContain('pass this on')
  })
  test('only bacteria alone bring a boil notice', () => {
    expect(noticeKind(['bacteria'])).toBe('boil')
    expect(noticeKind([])).toBe('inform')
    for (const chain of CHAINS.slice(1)) {
      expect(noticeKind([chain])).not.toBe('boil')
      expect(noticeKind(['bacteria', chain])).not.toBe('boil')
    }
    expect(noticeKind(['nitrate', 'benzene'])).toBe('do-not-use')
  })
  test.each([['nitrate'], ['lead'], ['arsenic'], ['benzene'], ['bacteria', 'nitrate'], ['bacteria', 'lead']])(
    '%j: nobody is told to boil, and all are told that boiling does not help',
    (...chains) => {
      const { text } = write(...chains)
      expect(text).toContain('Do not boil the water')
      expect(text).toContain('Boiling does not help')
      expect(text).not.toMatch(/full boil|boil it first|boil your water|use boiled water/i)
    },
  )
  test('the main message stands first, and no notice says safe', () => {
    for (const chain of CHAINS) {
      const notice = write(chain)
      expect(notice.text.startsWith(notice.title)).toBe(true)
      expect(notice.text).not.toMatch(/\bsafe\b/i)
    }
  })
  test.each([
    [{ causes: [] }, 'what was found'],
    [{ contact: { name: '', phone: '', address: '' } }, 'a name and a phone number to call'],
    [{ causes: [{ ...cause('lead'), level: ' ' }] }, 'the level that was found'],
    [{ well: '' }, 'which well'],
  ])('is not written while it lacks %j', (change, need) => {
    expect(writeNotice({ ...FACTS, ...change })).toEqual({ kind: 'cannot-say', need: [need] })
  })
  test('without a known end it says so', () => {
    const notice = writeNotice({ ...FACTS, earliestEnd: null })
    expect(notice.kind !== 'cannot-say' && notice.elements.until).toContain('do not know yet')
  })
})
