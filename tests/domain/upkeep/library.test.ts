import { describe, expect, test } from 'vitest'
import { COMMON_PRACTICE, consequenceRank, DUTY_LIBRARY, dutyFromTemplate } from '@/lib/domain/upkeep'

describe('the library of default duties', () => {
  const named = (name: string) => DUTY_LIBRARY.find((template) => template.name === name)

  test('every duty has its own key, a limit, a source or the words that there is none, and parts', () => {
    const keys = DUTY_LIBRARY.map((template) => dutyFromTemplate(template).key)
    expect(new Set(keys).size).toBe(keys.length)
    for (const template of DUTY_LIBRARY) {
      const { everyMonths, everyRunS, everyM3, condition } = dutyFromTemplate(template)
      expect([everyMonths, everyRunS, everyM3, condition].some((limit) => limit !== null)).toBe(true)
      expect(template.basisNote).toMatch(/EPA|CDC|WHO|DES|US Army|published source/)
      expect(template.partsHint.length).toBeGreaterThan(0)
    }
  })

  test('it is listed by weight: health, then supply, then wear', () => {
    const ranks = DUTY_LIBRARY.map(({ consequence }) => consequenceRank(consequence))
    expect(ranks).toEqual([...ranks].sort())
    expect(new Set(ranks)).toEqual(new Set([1, 2, 3]))
  })

  test.each([
    // US EPA, Protect Your Home's Water (page as of 19 Jan 2021): total coliform, nitrate, TDS and pH yearly.
    ['Bacteria sample', 12],
    ['Nitrate sample', 12],
    // New Hampshire DES, as quoted by a laboratory (2020): metals and others every 3 to 5 years; the shorter.
    ['Wider water panel', 36],
    // CDC private-well advice: mechanical check each spring.
    ['Inspect cap and seal', 12],
  ])('%s is due every %i months, as published', (name, months) => {
    expect(named(name)?.everyMonths).toBe(months)
  })

  test('new brushes are checked at 1,000 h (US Army TM 11-6125-252-15, paragraph 4-7)', () => {
    const template = named('Check motor brushes')
    expect(template && dutyFromTemplate(template).everyRunS).toBe(1000 * 3600)
  })

  test('the cartridge is changed at 20 psi, 137.9 kPa, which is common practice and says so', () => {
    const template = named('Change sediment cartridge')
    expect((template?.condition?.limitSi ?? 0) / 6894.757).toBeCloseTo(20, 4)
    expect(template?.basisNote.startsWith(COMMON_PRACTICE)).toBe(true)
  })
})
