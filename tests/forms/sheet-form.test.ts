import { describe, expect, test } from 'vitest'
import { entryDraftSchema } from '@/lib/domain/logbook/kinds'
import { ANALYTES } from '@/lib/domain/water/analytes'
import { readPasted } from '@/lib/domain/water/paste'
import { readUnit, toHome } from '@/lib/domain/water/units'
import { readSheet, type SheetReading } from '@/lib/forms/sheet/read-sheet'
import { COMMON, cellField, fieldsOf, freshRows, rowsOf, tableText } from '@/lib/forms/sheet/rows'
import { unitsFor } from '@/lib/forms/sheet/units'

const VISIT = '019a0000-0000-7000-8000-0000000000aa'
const ABOUT = { visitId: VISIT, by: 'Maren', sampleDate: '2026-11-19', sampleTime: '9:40' }
const context = { wellId: 'w', today: '2026-11-20', system: 'us' as const }

type Row = [analyte: string, result: string, unit?: string, limit?: string, qualifier?: string]
const rows = (...list: Row[]) =>
  fieldsOf(
    list.map(([analyte, result, unit = '', reportingLimit = '', qualifier = '']) => ({
      analyte,
      result,
      unit,
      reportingLimit,
      qualifier,
      method: '',
      pasted: false,
    })),
  )
const send = (fields: Record<string, string>, intent: 'read' | 'more' | 'check' | 'save' = 'save') =>
  readSheet({ ...ABOUT, ...fields }, intent, context)
const back = (reading: SheetReading) => {
  if (reading.ok) throw new Error('the sheet was stored')
  return reading
}
const stored = (reading: SheetReading) => {
  if (!reading.ok) throw new Error(JSON.stringify({ ...reading, typed: undefined }))
  for (const draft of reading.drafts) entryDraftSchema.parse(draft)
  const sample = reading.drafts.map(({ payload }) => payload).find((payload) => payload.kind === 'sample')
  if (!sample) throw new Error('no sample was stored')
  return sample
}
/** The one field about which a sheet asks. */
const askedField = (reading: SheetReading) => {
  const fields = Object.keys(back(reading).questions)
  expect(fields).toHaveLength(1)
  return fields[0] ?? ''
}

describe('a sheet typed row by row', () => {
  test('is stored as it stands on the sheet, with what was tested and nothing else', () => {
    const sample = stored(
      send({
        ...rows(
          ['Total coliform', 'Absent'],
          ['Nitrate', '<0.05', 'mg/L as N', '0.05', 'U'],
          ['Arsenic', ''],
          ['Zinc', '0.05 J', 'mg/L'],
        ),
        receivedDate: '2026-11-19',
        receivedTime: '13:05',
        receivedTemp: '41',
        chlorinated: 'no',
        samplePurpose: 'after-flood',
        sampleLab: 'Sorrel Water Laboratory',
        sampleId: 'S-118',
        pointKind: 'Kitchen tap',
        pointDetail: 'upstairs',
        sampler: 'Joss',
      }),
    )
    expect(sample).toMatchObject({
      sampledAt: '2026-11-19T09:40',
      receivedAt: '2026-11-19T13:05',
      receivedTemp: { typed: '41' },
      chlorinated: 'no',
      purpose: 'after-flood',
      lab: 'Sorrel Water Laboratory',
      sampleId: 'S-118',
      point: 'Kitchen tap, upstairs',
      sampler: 'Joss',
    })
    expect(sample.results).toEqual([
      { analyte: 'Total coliform', result: 'Absent' },
      { analyte: 'Nitrate', result: '<0.05', unit: 'mg/L as N', reportingLimit: '0.05', qualifier: 'U' },
      { analyte: 'Zinc', result: '0.05 J', unit: 'mg/L' },
    ])
  })

  test('stands in the logbook on the day and time of sampling, and is the same when sent twice', () => {
    const once = send(rows(['E. coli', 'Absent']))
    expect(send(rows(['E. coli', 'Absent']))).toEqual(once)
    expect(once.ok && once.drafts[0]).toMatchObject({
      occurredOn: '2026-11-19',
      occurredTime: '09:40',
      visitId: VISIT,
      byName: 'Maren',
    })
  })

  test('keeps a quotation mark in a cell', () => {
    const fields = { ...rows(['Sodium', '12', 'mg/L']), [cellField(1, 'method')]: 'EPA "200.7"' }
    expect(stored(send(fields)).results[0]?.method).toBe('EPA "200.7"')
  })

  test.each([
    ['nothing at all', rows(['Arsenic', '']), cellField(1, 'result')],
    ['a name of its own without a result', rows(['Selenium', '']), cellField(1, 'result')],
    ['a result without a name', rows(['', '0.2', 'mg/L']), cellField(1, 'analyte')],
    [
      'a result longer than the logbook holds',
      rows(['Iron', '9'.repeat(130), 'mg/L']),
      cellField(1, 'result'),
    ],
    ['no day of sampling', { ...rows(['Iron', '0.1', 'mg/L']), sampleDate: '' }, 'sampleDate'],
    ['a day that is not one', { ...rows(['Iron', '0.1', 'mg/L']), sampleDate: '2026-02-30' }, 'sampleDate'],
    ['a day to come', { ...rows(['Iron', '0.1', 'mg/L']), sampleDate: '2027-01-05' }, 'sampleDate'],
    ['a temperature in words', { ...rows(['Iron', '0.1', 'mg/L']), receivedTemp: 'cold' }, 'receivedTemp'],
  ])('comes back whole when it has %s', (_what, fields, field) => {
    const sent = { ...fields, note: 'kept', sampleLab: 'kept too' }
    const reading = back(send(sent))
    expect(Object.keys(reading.errors)).toContain(field)
    expect(reading.typed).toMatchObject(sent)
  })
})

describe('what is asked before a sheet is stored', () => {
  test.each<[string, Row, string, Record<string, string>]>([
    ['a name with two meanings', ['Coliform', 'Present'], 'total-coliform', { analyteId: 'total-coliform' }],
    ['a name nobody knows', ['Gold', '2', 'mg/L'], 'open', {}],
    ['nitrate without its form', ['Nitrate', '12', 'mg/L'], 'NO3', {}],
    ['a letter of the laboratory', ['Sodium', '12', 'mg/L', '', 'ZQ'], 'estimated', {}],
    ['a value a thousand times too high', ['Arsenic', '8', 'mg/L'], 'a thousandth', {}],
    ['a limit far from the result', ['Lead', '<0.5', 'µg/L', '50'], '0.05', {}],
    ['a measured zero', ['Copper', '0', 'mg/L'], 'open', {}],
    ['a sign', ['Iron', '-0.5', 'mg/L'], 'open', {}],
    ['a missing unit', ['Iron', '0.5'], 'open', {}],
    ['a unit that does not fit', ['pH', '7.2', 'mg/L'], 'open', {}],
  ])('%s', (_what, row, answer, result) => {
    const field = askedField(send(rows(row)))
    const again = back(send(rows(row)))
    expect(again.questions[field]?.choices.map(({ value }) => value)).toContain(answer)
    expect(again.typed).toMatchObject(rows(row))
    const sample = stored(send({ ...rows(row), [field]: answer }))
    expect(sample.results[0]).toMatchObject({ analyte: row[0], result: row[1], ...result })
    const kind = field.split(':').at(-1)
    const keeps = answer !== 'open' && ['form', 'qualifier', 'scale', 'limit'].includes(kind ?? '')
    expect(sample.results[0]?.answers ?? []).toEqual(keeps ? [{ question: kind, answer }] : [])
  })

  test('an answer lapses when the row it was given to is changed', () => {
    const field = askedField(send(rows(['Arsenic', '8', 'mg/L'])))
    const reading = send({ ...rows(['Arsenic', '9', 'mg/L']), [field]: 'a thousandth' })
    expect(askedField(reading)).not.toBe(field)
  })

  test('what a comma means, once for the sheet; the same text is then read both ways', () => {
    const sheet = rows(['Iron', '1,2', 'mg/L'], ['Sodium', '14.5', 'mg/L'])
    expect(Object.keys(back(send(sheet)).errors)).toEqual(['sampleDecimals'])
    const comma = stored(send({ ...rows(['Iron', '1,2', 'mg/L']), sampleDecimals: 'comma' }))
    expect(comma).toMatchObject({ decimals: 'comma', results: [{ result: '1,2' }] })
    const words = (sampleDecimals: string) =>
      back(send({ ...rows(['Iron', '1,200', 'µg/L']), sampleDecimals }, 'check')).views[1]?.words
    expect(words('comma')).toBe('Read as Iron: 0.0012 mg/L.')
    expect(words('point')).toBe('Read as Iron: 1.2 mg/L.')
    expect(back(send(rows(['Iron', '1.2', 'mg/L']), 'check')).views[1]?.words).toBe('Read as Iron: 1.2 mg/L.')
  })
})

/** Invented; headings and layout as spreadsheets give them. */
const TABLE = `Sorrel Water Laboratory
Sample S-118, received 11/19/2026
Parameter\tResult\tUnits\tRL\tQualifier\tMethod
Total Coliform\tAbsent\tP/A\t\t\tSM 9223B
Nitrate as N\t1.2\tmg/L\t0.05\t\tEPA 300.0
Arsenic, total\t<1\tug/L\t1\tU\tEPA 200.8
Unobtainium\t3\tmg/L\t\t\t
Lead\t\tug/L\t1\t\tEPA 200.8
Reviewed by J. Doe`

describe('a pasted table', () => {
  test('becomes rows to look at; lines without a result go to the remarks and nothing is stored unseen', () => {
    const reading = back(send({ ...fieldsOf(freshRows()), pasted: TABLE, note: 'by hand' }))
    expect(reading.done).toContain('5 rows were read')
    expect(reading.typed.pasted).toBe('')
    expect(reading.typed.note?.split('\n')).toEqual([
      'by hand',
      'Sorrel Water Laboratory',
      'Sample S-118, received 11/19/2026',
      'Reviewed by J. Doe',
    ])
    expect(rowsOf(reading.typed)[1]).toEqual({
      analyte: 'Nitrate as N',
      result: '1.2',
      unit: 'mg/L',
      reportingLimit: '0.05',
      qualifier: '',
      method: 'EPA 300.0',
      pasted: true,
    })
    expect(Object.values(reading.views).map(({ words }) => words)).toEqual([
      'Read as Total coliform: absent.',
      'Read as Nitrate: 1.2 mg/L as N.',
      'Read as Arsenic: less than 0.001 mg/L.',
      '',
      '',
    ])
    const { typed } = reading
    const refused = back(send(typed))
    const answers = Object.fromEntries(Object.keys(refused.questions).map((field) => [field, 'open']))
    expect(Object.keys(answers)).toHaveLength(2)
    const outcome = send({ ...typed, ...answers })
    expect(stored(outcome).results.map(({ result }) => result)).toEqual(['Absent', '1.2', '<1', '3', ''])
    const note = outcome.ok ? outcome.drafts.find(({ payload }) => payload.kind === 'note') : undefined
    expect(note?.payload).toMatchObject({ text: expect.stringContaining('Reviewed by J. Doe') })
  })

  test('goes below what was typed before it, and leaves out the names offered in vain', () => {
    const typed = rows(['Arsenic', ''], ['Iron', '0.3', 'mg/L'])
    const reading = back(send({ ...typed, pasted: 'Sodium\t12\tmg/L\nChloride\t8\tmg/L' }, 'read'))
    expect(rowsOf(reading.typed).map(({ analyte }) => analyte)).toEqual(['Iron', 'Sodium', 'Chloride', ''])
  })

  test('in which nothing is a result comes back as it was, with what to do', () => {
    const reading = back(send({ ...rows(['Arsenic', '']), pasted: 'Thank you for your order' }, 'read'))
    expect(reading.errors.pasted).toContain('No result was found')
    expect(reading.typed.pasted).toBe('Thank you for your order')
  })
})

test('more rows are given without losing what was typed, up to what a sheet may hold', () => {
  const reading = back(send({ ...rows(['Iron', '0.3', 'mg/L']), pasted: 'half typed' }, 'more'))
  expect(rowsOf(reading.typed)).toHaveLength(7)
  expect(reading.typed.pasted).toBe('half typed')
  expect(rowsOf({ rows: '100000' })).toHaveLength(300)
})

test('rows written as a table are read back cell for cell', () => {
  const cells = {
    analyte: 'Lead, "first draw"',
    result: '<1',
    unit: 'µg/L',
    reportingLimit: '1',
    qualifier: 'U',
    method: 'EPA; 200.8',
  }
  expect(readPasted(tableText([cells]), { locale: 'en' }).rows.map(({ row }) => row)).toEqual([cells])
})

test('every name the form offers is known, and every unit it suggests can be read for its analyte', () => {
  for (const name of COMMON) expect(ANALYTES.map((analyte) => analyte.name)).toContain(name)
  for (const analyte of ANALYTES)
    for (const unit of unitsFor(analyte))
      expect(toHome(analyte, readUnit(unit), null).kind, `${analyte.name} in ${unit}`).not.toBe('problem')
})
