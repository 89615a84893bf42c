import { expect, test } from 'vitest'
import { partsAtWell, partsOfDuty } from '@/lib/domain/logbook/duty-parts'
import { slug } from '@/lib/domain/upkeep/keys'
import { DUTY_LIBRARY } from '@/lib/domain/upkeep/library'

// Common practice, no published source: what each duty of the library takes.
test.each([
  ['Change sediment cartridge', '1 cartridge used, 1 o-rings used'],
  ['Spring opening', '1 cartridge used'],
  ['Replace motor brushes', '1 brushes used'],
  ['Check motor brushes', '1 brushes in case'],
  ['Replace UV lamp', '1 lamp used'],
  ['Test check valve and prime', '1 check valve in case'],
  ['Inspect cap and seal', '1 cap in case'],
  ['Bacteria sample', ''],
  ['Recovery test', ''],
  ['Winter shut-down', ''],
  ['Clean out tank', ''],
  ['Measure pump flow and amps', ''],
])('"%s" takes: %s', (name, said) => {
  expect(DUTY_LIBRARY.map((duty) => duty.name)).toContain(name)
  const parts = partsOfDuty(slug(name)).map(({ part, count, use }) => `${count} ${part} ${use}`)
  expect(parts.join(', ')).toBe(said)
})

test('a check and a change of the same part at one well take one set', () => {
  expect(partsAtWell(['check-motor-brushes', 'replace-motor-brushes'])).toEqual([
    { part: 'brushes', count: 1, use: 'used' },
  ])
  expect(partsAtWell(['replace-motor-brushes', 'check-motor-brushes'])).toEqual([
    { part: 'brushes', count: 1, use: 'used' },
  ])
})
