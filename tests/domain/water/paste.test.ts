import { describe, expect, test } from 'vitest'
import { readPasted } from '@/lib/domain/water/paste'

const read = (text: string) => readPasted(text, { locale: 'en' })
const short = (text: string) =>
  read(text).rows.map((row) =>
    row.reading.kind === 'result'
      ? `${row.reading.result.analyte} ${row.reading.result.operator} ${row.reading.result.value}`
      : row.reading.kind,
  )

describe('a table pasted from a sheet', () => {
  test.each([
    [
      'tabs',
      'Parameter\tResult\tUnits\tRL\nTotal Coliform\tAbsent\t/100mL\t\nNitrate-N\t1.2\tmg/L\t0.5\nLead\t3\tug/L\t1',
    ],
    [
      'commas and quotes',
      'Analyte,Result,Unit,Reporting Limit\n"Coliform, total",Absent,/100mL,\nNitrate-N,1.2,mg/L,0.5\n"Lead, total",3,ug/L,1',
    ],
    ['semicolons', 'Test;Value;Unit;MRL\r\nTotal coliform;Absent;;\r\nNitrate-N;1.2;mg/L;0.5\r\nPb;3;ug/L;1'],
    [
      'bars',
      '| Analyte | Result | Unit | PQL |\n| Total coliform | Absent | | |\n| Nitrate-N | 1.2 | mg/L | 0.5 |\n| Lead | 3 | ug/L | 1 |',
    ],
    [
      'columns of spaces',
      'Parameter        Result   Units    RL\nTotal coliform   Absent   P/A\nNitrate-N        1.2      mg/L     0.5\nLead             3        ug/L     1',
    ],
    [
      'dots and no heading',
      'Total coliform ...... Absent\nNitrate-N ........... 1.2 mg/L\nLead ................ 3 ug/L',
    ],
    ['colons', 'Total coliform: Absent\nNitrate-N: 1.2 mg/L\nLead: 3 ug/L'],
    ['single spaces', 'Total coliform Absent\nNitrate as N 1.2 mg/L\nLead 3 ug/L'],
  ])('with %s', (_, text) => {
    expect(short(text)).toEqual(['total-coliform absent null', 'nitrate = 1.2', 'lead = 0.003'])
  })

  test('letterheads and addresses are skipped and shown, not lost', () => {
    const pasted = read(
      'Sorrel Laboratory Inc.\n12 Mill Road\n\nTotal coliform ..... Present\nThank you for your business',
    )
    expect(pasted.rows.map((row) => row.line)).toEqual([4])
    expect(pasted.skipped.map((line) => line.line)).toEqual([1, 2, 5])
  })

  test('under a heading a row that cannot be read comes back with its problem', () => {
    const pasted = read(
      'Analyte\tResult\tUnit\nNitrate-N\t1,2\tmg/L\nUnobtainium\t3\tmg/L\nColiform\tAbsent\t\nArsenic\t\tug/L\nIron\t0.3\tfurlong',
    )
    expect(pasted.rows.map((row) => row.reading.kind)).toEqual([
      'problem',
      'unknown-analyte',
      'which-analyte',
      'problem',
      'problem',
    ])
    expect(pasted.rows.map((row) => row.line)).toEqual([2, 3, 4, 5, 6])
  })

  test('the sheet decides what a comma means', () => {
    expect(
      readPasted('Analyte;Result;Unit\nNitrate-N;1,2;mg/L', { locale: 'comma' }).rows[0]?.reading,
    ).toMatchObject({ kind: 'result', result: { value: 1.2 } })
  })

  test('columns are found in any order, and a limit column of the sheet is not taken for a result', () => {
    const pasted = read('EPA Limit\tUnits\tYour Result\tContaminant\tQualifier\n10\tmg/L\t0.05\tNitrate-N\tU')
    expect(pasted.rows[0]?.reading).toMatchObject({ kind: 'result', result: { operator: '<', value: 0.05 } })
  })

  test('nothing pasted is nothing read', () =>
    expect(read('  \n ')).toEqual({ rows: [], skipped: [], headings: null }))
})
