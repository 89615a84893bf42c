import { EVENTS, type Fact } from '@/lib/domain/logbook/kinds'
import { slug } from '@/lib/domain/upkeep/keys'
import { Cells } from './cells'
import { type Drafts, type EntryFact, Labels, noDrafts } from './drafts'
import type { Answers, Mapping } from './mapping'
import type { Table } from './table'

type Event = (typeof EVENTS)[number]

/**
 * Reads a table of visits: one row becomes several entries of one visit. Columns without a meaning go into the note,
 * as "Heading: text". A row that says nothing but well and day is noticed and gives no entry.
 */
export function readVisits(table: Table, mapping: Mapping, answers: Answers): Drafts {
  const drafts = noDrafts()
  const cells = new Cells(table, 'visits', mapping, answers)
  const labels = new Labels()
  for (const row of table.rows) {
    cells.at(row)
    const label = cells.neededText('well')
    if (label !== null) labels.add(label)
    const visit = visitOf(cells)
    const facts = factsOf(cells)
    if (label === null || visit === null || cells.faulty) continue
    if (facts.length === 0) {
      const message = 'The row has a well and a day and nothing else: nothing is stored.'
      drafts.notices.push({ row: row.line, column: '', value: label, message })
    }
    for (const fact of facts) drafts.entries.push({ wellLabel: label, row: row.line, ...visit, fact })
  }
  return { ...drafts, labels: labels.list, problems: cells.problems }
}

/** When it was and who was there; null, with the problem noted, where the day cannot be read. */
export function visitOf(cells: Cells): Pick<EntryFact, 'on' | 'time' | 'by'> | null {
  const at = cells.dayTime('date')
  const time = cells.time('time') ?? at?.time ?? null
  const by = cells.text('by')
  if (at === null && !cells.faulty) cells.complain('date', 'The date must not be blank.')
  return at === null ? null : { on: at.day, time, by }
}

function factsOf(cells: Cells): Fact[] {
  const facts: Fact[] = []
  const done = doneOf(cells)
  if (done) facts.push(done)
  facts.push(...levelsOf(cells), ...flowOf(cells))
  const meters = metersOf(cells)
  const events = eventsOf(cells)
  const replaced = events.includes('meter-replaced')
  if (!replaced) facts.push(...meters)
  const before = cells.quantity('pressure_in')
  const after = cells.quantity('pressure_out')
  if (before || after) {
    facts.push({ kind: 'pressure-reading', ...(before ? { before } : {}), ...(after ? { after } : {}) })
  }
  const lengths = cells.quantities('brush_length')
  if (lengths.length > 8) cells.complain('brush_length', 'At most 8 brushes are read.')
  if (lengths.length > 0) facts.push({ kind: 'brush-length', lengths })
  const amps = cells.quantity('amps')
  const volts = cells.quantity('volts')
  if (amps || volts)
    facts.push({ kind: 'electrical-reading', ...(amps ? { amps } : {}), ...(volts ? { volts } : {}) })
  for (const event of events) {
    if (event === 'meter-replaced' && meters.length > 0) facts.push(...meters.map(fittedMeter))
    else facts.push({ kind: 'event', event })
  }
  const note = noteOf(cells, [cells.text('note')])
  if (note) facts.push(note)
  return facts
}

function doneOf(cells: Cells): Fact | null {
  const names = cells.list('done')
  if (names.length === 0) return null
  const bad = names.find((name) => name.length > 120 || !/[\p{L}\p{N}]/u.test(name))
  if (bad !== undefined) {
    cells.complain('done', `"${bad.slice(0, 40)}" is no name of a duty. Separate duties by semicolons.`)
    return null
  }
  if (names.length > 40) cells.complain('done', 'At most 40 duties are read from one row.')
  return { kind: 'service-done', duties: names.map(slug), names, parts: [] }
}

function levelsOf(cells: Cells): Fact[] {
  const facts: Fact[] = []
  const rest = cells.quantity('static_level')
  if (rest) facts.push({ kind: 'level-reading', level: rest, state: 'rest' })
  const pumping = cells.quantity('pumping_level')
  if (pumping) facts.push({ kind: 'level-reading', level: pumping, state: 'pumping' })
  return facts
}

/** Minutes pumped without a flow belong to no reading, and are kept as a note. */
function flowOf(cells: Cells): Fact[] {
  const flow = cells.quantity('flow')
  const pumped = cells.quantity('pumped')
  if (flow) return [{ kind: 'flow-reading', flow, ...(pumped ? { pumped } : {}) }]
  return pumped ? [{ kind: 'note', text: `Pumped for ${pumped.typed}` }] : []
}

type MeterFact = Extract<Fact, { kind: 'meter-reading' }>

function metersOf(cells: Cells): MeterFact[] {
  const facts: MeterFact[] = []
  const hours = cells.quantity('hour_meter')
  if (hours) facts.push({ kind: 'meter-reading', meter: 'hours', reading: hours, explained: null })
  const volume = cells.quantity('volume_meter')
  if (volume) facts.push({ kind: 'meter-reading', meter: 'volume', reading: volume, explained: null })
  return facts
}

/** The reading beside "meter replaced" is the new meter's first. */
function fittedMeter({ meter, reading }: MeterFact): Fact {
  return { kind: 'event', event: 'meter-replaced', meter, newReading: reading }
}

function eventsOf(cells: Cells): Event[] {
  return cells.list('event').flatMap((text) => {
    const key = text.toLowerCase().replace(/[\s_]+/g, '-')
    const event = EVENTS.find((known) => known === key)
    if (event === undefined) {
      const known = EVENTS.map((name) => name.replaceAll('-', '_')).join(', ')
      cells.complain('event', `"${text}" is no event known here: use one of ${known}.`)
    }
    return event ?? []
  })
}

const NOTE_MAX = 4000

/** One note of the texts given and the kept columns; null where there is nothing to note. */
function noteOf(cells: Cells, texts: readonly (string | null)[]): Fact | null {
  const text = [...texts, ...keptLines(cells)].filter((line) => line !== null).join('\n')
  if (text === '') return null
  if (text.length > NOTE_MAX) {
    const message = `The note is longer than ${NOTE_MAX} characters together with the columns kept in it.`
    cells.complain('note', message)
  }
  return { kind: 'note', text }
}

/** The kept columns of a row as lines of a note. */
export function keptLines(cells: Cells): string[] {
  return cells.keptTexts().map(({ heading, text }) => `${heading}: ${text}`)
}

/** Lines as notes, each within the length of one; a line that is longer alone is spread over several. */
export function notesOf(lines: Iterable<string>): Fact[] {
  const texts: string[] = []
  for (const line of lines) {
    const last = texts.at(-1)
    if (last !== undefined && last.length + 1 + line.length <= NOTE_MAX)
      texts[texts.length - 1] = `${last}\n${line}`
    else for (let at = 0; at < line.length; at += NOTE_MAX) texts.push(line.slice(at, at + NOTE_MAX))
  }
  return texts.map((text) => ({ kind: 'note', text }))
}
