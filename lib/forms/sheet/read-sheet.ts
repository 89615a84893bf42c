import type { EntryDraft } from '@/lib/domain/logbook/kinds'
import { uuidSchema } from '@/lib/domain/logbook/kinds'
import type { NumberLocale } from '@/lib/domain/quantity/number-text'
import { readPasted } from '@/lib/domain/water/paste'
import { readResult } from '@/lib/domain/water/results'
import type { VisitContext } from '../visit/context'
import { type Line, lineId } from '../visit/lines'
import { noteLine } from '../visit/other-lines'
import { type Question, Reader } from '../visit/reader'
import { sampleLine } from '../visit/sample-line'
import { OPEN, type RowView, readRow } from './row-reading'
import {
  CELL_MAX,
  COLUMNS,
  type Column,
  cellField,
  fieldsOf,
  isFilled,
  isUntouched,
  MORE_ROWS,
  ROWS_MAX,
  rowsOf,
  type SheetRow,
  spareRows,
  tableText,
} from './rows'

/** What the form is sent for: to read a pasted table into rows, for more rows, to look at the reading, or to be stored. */
export type Intent = 'read' | 'more' | 'check' | 'save'

/** What the pressed button means; the first one of the form, which Enter presses without script, only reads. */
export function intentOf(text: string | undefined): Intent {
  return text === 'save' || text === 'more' || text === 'check' ? text : 'read'
}

export type SheetReading =
  | { ok: true; drafts: EntryDraft[] }
  | {
      ok: false
      /** The form as it is shown again: everything typed, with pasted rows now in their cells. */
      typed: Record<string, string>
      errors: Record<string, string>
      questions: Record<string, Question>
      /** How each row reads, by its number from 1; rows in which nothing was typed are left out. */
      views: Record<number, RowView>
      done?: string
    }

type Typed = Readonly<Record<string, string>>

/** Reads a sheet form. A form that is stored gives one sample, and a note with what else stood on the sheet. */
export function readSheet(
  sent: Typed,
  intent: Intent,
  context: Pick<VisitContext, 'wellId' | 'today' | 'system'>,
): SheetReading {
  const pasted = (sent.pasted ?? '').trim() !== ''
  if (intent === 'more') return again(withRows(sent, [...rowsOf(sent), ...spareRows(MORE_ROWS)]), 'More rows')
  if (pasted) return takeTable(sent)
  if (intent !== 'save') return again(sent, 'The rows were read: see below each')
  return store(sent, context)
}

/** A pasted table becomes rows to be looked at; it is never stored unseen. What was no row goes to the remarks. */
function takeTable(sent: Typed): SheetReading {
  const table = readPasted(sent.pasted ?? '', { locale: localeOf(sent) })
  const rows: SheetRow[] = table.rows.map(({ row }) => ({ ...row, pasted: true }))
  const all = [...rowsOf(sent).filter(isFilled), ...rows]
  if (all.length > ROWS_MAX) {
    const message = `A sheet has at most ${ROWS_MAX} rows. Paste it in parts.`
    return { ...again(sent, ''), errors: { pasted: message } }
  }
  const rest = table.skipped.map(({ text }) => text.trim())
  const typed = { ...withRows(sent, [...all, ...spareRows(1)]), pasted: '', note: remarks(sent.note, rest) }
  const found = `${rows.length} ${rows.length === 1 ? 'row was' : 'rows were'} read from the table`
  if (rows.length === 0) {
    const message =
      'No result was found in it. Paste lines with a name, a result and a unit, or type them into the rows.'
    return { ...again(sent, ''), errors: { pasted: message } }
  }
  const kept =
    rest.length === 0
      ? ''
      : `; ${rest.length} ${rest.length === 1 ? 'line was' : 'lines were'} no result and went to the remarks`
  return again(typed, `${found}${kept}. Look at each, then store the sheet`)
}

const remarks = (before: string | undefined, lines: readonly string[]) =>
  [...((before ?? '').trim() === '' ? [] : [before ?? '']), ...lines].join('\n')

/** The form once more, with how each row reads and what is to be asked; nothing is refused by it. */
function again(typed: Typed, done: string): Extract<SheetReading, { ok: false }> {
  const { views } = viewsOf(typed)
  return {
    ok: false,
    typed: withRows(typed, rowsOf(typed)),
    errors: {},
    questions: {},
    views,
    ...(done === '' ? {} : { done }),
  }
}

function withRows(typed: Typed, rows: readonly SheetRow[]): Record<string, string> {
  const others = Object.entries(typed).filter(([name]) => !/^r\d+:/.test(name))
  return { ...Object.fromEntries(others), ...fieldsOf(rows.slice(0, ROWS_MAX)) }
}

const localeOf = (typed: Typed): NumberLocale =>
  typed.sampleDecimals === 'comma' ? 'comma' : typed.sampleDecimals === 'point' ? 'en' : null

/** How the filled rows read, and whether the meaning of a comma has to be asked for the whole sheet. */
function viewsOf(typed: Typed): { views: Record<number, RowView>; whichComma: boolean } {
  const locale = localeOf(typed)
  const views: Record<number, RowView> = {}
  let whichComma = false
  rowsOf(typed).forEach((row, i) => {
    if (isUntouched(row)) return
    const unclear =
      locale === null &&
      readResult(row, { locale }).kind === 'problem' &&
      (['en', 'comma'] as const).some((said) => readResult(row, { locale: said }).kind === 'result')
    if (unclear) whichComma = true
    views[i + 1] = unclear
      ? { words: 'Say above how this sheet writes numbers.', asks: [] }
      : readRow(row, typed, locale)
  })
  return { views, whichComma }
}

function store(sent: Typed, context: Pick<VisitContext, 'wellId' | 'today' | 'system'>): SheetReading {
  const rows = rowsOf(sent)
  const { views, whichComma } = viewsOf(sent)
  const filled = rows.filter(isFilled)
  const reader = new Reader(forSample(sent, filled), context.system)
  rows.forEach((row, i) => {
    checkCells(reader, row, i + 1)
  })
  if (filled.length === 0)
    reader.refuse(cellField(1, 'result'), 'Nothing was entered yet: type a result as on the sheet')
  if (whichComma)
    reader.refuse('sampleDecimals', 'Say how this sheet writes numbers: is 1,2 one and two tenths?')
  const visitId = uuidSchema.safeParse(reader.text('visitId'))
  if (!visitId.success) reader.refuse('sampleDate', 'This form has lost its number: open the page again')
  const lines = [...sampleLine(reader, context.today), ...noteLine(reader)]
  const questions = Object.fromEntries(
    Object.values(views).flatMap(({ asks }) =>
      asks.filter((ask) => !ask.answered).map((ask) => [ask.field, ask] as const),
    ),
  )
  const stopped = Object.keys(reader.errors).length > 0 || Object.keys(questions).length > 0
  if (stopped || !visitId.success) {
    const { sampleResults: sheet, ...errors } = reader.errors
    if (sheet && Object.keys(errors).length === 0) errors[cellField(1, 'result')] = sheet
    return { ...again(sent, ''), errors, questions }
  }
  return { ok: true, drafts: draftsOf(lines, visitId.data, reader, context) }
}

/** The form as the reader of samples takes it: rows as one table, the point in words, and only answers that say something. */
function forSample(sent: Typed, rows: readonly SheetRow[]): Record<string, string> {
  const said = Object.entries(sent).filter(([name, value]) => !(name.startsWith('row:') && value === OPEN))
  const place = [sent.pointKind ?? '', (sent.pointDetail ?? '').trim()].filter((part) => part !== '')
  return {
    ...Object.fromEntries(said),
    samplePoint: place.join(', '),
    ...(rows.length > 0 ? { sampleResults: tableText(rows) } : {}),
  }
}

function checkCells(reader: Reader, row: SheetRow, n: number): void {
  if (isUntouched(row)) return
  for (const column of COLUMNS)
    if (row[column].length > CELL_MAX[column])
      reader.refuse(
        cellField(n, column),
        `Row ${n}: the ${COLUMN_WORDS[column]} is longer than ${CELL_MAX[column]} characters. Put the rest in the remarks.`,
      )
  if (row.analyte === '')
    reader.refuse(cellField(n, 'analyte'), `Row ${n}: say what was tested, as on the sheet`)
  else if (row.result === '' && !row.pasted)
    reader.refuse(
      cellField(n, 'result'),
      `Row ${n}, ${row.analyte}: type the result as on the sheet (ND, Absent, not tested), or clear the row`,
    )
}

export const COLUMN_WORDS: Readonly<Record<Column, string>> = {
  analyte: 'name',
  result: 'result',
  unit: 'unit',
  reportingLimit: 'reporting limit',
  qualifier: 'qualifier',
  method: 'method',
}

function draftsOf(
  lines: readonly Line[],
  visitId: string,
  reader: Reader,
  context: Pick<VisitContext, 'wellId'>,
): EntryDraft[] {
  const sampledAt = lines.flatMap(({ fact }) => (fact.kind === 'sample' ? [fact.sampledAt] : []))[0] ?? ''
  const byName = reader.optional('by', 'name of who entered it', 120) ?? null
  return lines.map(({ slot, fact }) => ({
    id: lineId(visitId, slot),
    wellId: context.wellId,
    visitId,
    occurredOn: sampledAt.slice(0, 10),
    occurredTime: sampledAt.length > 10 ? sampledAt.slice(11, 16) : null,
    byName,
    supersedes: null,
    withdraws: null,
    payload: fact,
  }))
}
