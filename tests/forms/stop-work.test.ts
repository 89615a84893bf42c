import { expect, test } from 'vitest'
import { readStopWork, workField } from '@/lib/forms/stop-work'

test('reads the duties ticked, the minutes and the note of a stop', () => {
  const typed = {
    version: '3',
    [workField('bacteria-sample')]: 'yes',
    [workField('chain:e-coli')]: 'yes',
    minutes: ' 45 ',
    note: '  Take the long ladder. ',
  }
  expect(readStopWork(typed)).toEqual({
    ok: true,
    work: {
      version: 3,
      keys: ['bacteria-sample', 'chain:e-coli'],
      minutes: 45,
      note: 'Take the long ladder.',
    },
  })
})

test('takes blank minutes as those of the duties, and a blank note as none', () => {
  const work = { version: 1, keys: [], minutes: null, note: null }
  expect(readStopWork({ version: '1', minutes: ' ', note: '' })).toEqual({ ok: true, work })
  expect(readStopWork({ version: '1' })).toEqual({ ok: true, work })
})

test.each(['0', '601', '1.5', '-5', 'an hour', '1e2'])('does not guess minutes of "%s"', (minutes) => {
  expect(readStopWork({ version: '1', minutes })).toEqual({
    ok: false,
    errors: { minutes: 'The minutes must be a whole number from 1 to 600, or blank' },
  })
})

test('refuses a note longer than a sheet has room for', () => {
  expect(readStopWork({ version: '1', note: 'x'.repeat(401) })).toMatchObject({
    ok: false,
    errors: { note: expect.stringContaining('400') },
  })
})
