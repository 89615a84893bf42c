import { expect, test } from 'vitest'
import { changedFields } from '@/lib/forms/change-words'

const change = (before: unknown, after: unknown) => ({
  before: before === null ? null : JSON.stringify(before),
  after: JSON.stringify(after),
})
const plain = (fields: ReturnType<typeof changedFields>) =>
  fields.map(({ what, was, now }) => `${what}: ${was} > ${now}`.replaceAll('\u00a0', ' '))

test('tells what people changed, in the units of the reader, and nothing of ids and versions', () => {
  const before = {
    id: '1',
    version: 1,
    name: 'Old',
    wellDepthM: 3.048,
    liftM: null,
    typed: '{}',
    area: 'Same',
  }
  const after = {
    name: 'New',
    wellDepthM: 6.096,
    liftM: 1.2192,
    typed: '{"liftM":"4 ft"}',
    area: 'Same',
    labelKey: 'x',
  }
  expect(plain(changedFields(change(before, after), 'us'))).toEqual([
    'name: Old > New',
    'well depth: 10.0 ft > 20.0 ft',
    'lift: not known > 4.0 ft',
  ])
  expect(plain(changedFields(change(before, after), 'metric'))).toContain('well depth: 3.05 m > 6.10 m')
})

test('tells the limits of a duty, and a value that was taken away as not known', () => {
  expect(
    plain(
      changedFields(
        change({ everyMonths: 6, everyRunS: 3600 }, { everyMonths: null, everyRunS: 7200 }),
        'us',
      ),
    ),
  ).toEqual(['months: 6 > not known', 'run hours: 1 h > 2 h'])
})

test('tells nothing of what was added, or of a list of entries', () => {
  expect(changedFields(change(null, { name: 'New' }), 'us')).toEqual([])
  expect(changedFields(change([{ id: '1' }], [{ id: '2' }]), 'us')).toEqual([])
})
