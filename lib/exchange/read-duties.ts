import type { Dimension } from '@/lib/domain/quantity'
import { slug } from '@/lib/domain/upkeep/keys'
import { CONDITION_KINDS, type ConditionKind, type Consequence } from '@/lib/domain/upkeep/types'
import { keyOf } from '@/lib/records/well-fields'
import { Cells } from './cells'
import { type Drafts, type DutyDraft, Labels, noDrafts } from './drafts'
import type { Answers, Mapping } from './mapping'
import { typedOf } from './read-wells'
import type { Table } from './table'

const CONSEQUENCES: readonly Consequence[] = ['health', 'supply', 'wear']
/** What the limit of each condition measures. */
const LIMIT_DIMENSIONS: Readonly<Record<ConditionKind, Dimension>> = {
  brush_length: 'length',
  pressure_drop: 'pressure',
  flow_share: 'ratio',
  flow: 'flow',
  lift_margin: 'length',
}

/**
 * Reads a table of duties. A duty that comes twice for one well is a problem. Where nobody says what suffers, 'supply'
 * is taken, the middle of the three.
 */
export function readDuties(table: Table, mapping: Mapping, answers: Answers): Drafts {
  const drafts = noDrafts()
  const cells = new Cells(table, 'duties', mapping, answers)
  const labels = new Labels()
  const rowOfDuty = new Map<string, number>()
  for (const row of table.rows) {
    cells.at(row)
    const label = cells.neededText('well')
    if (label === null) continue
    labels.add(label)
    const duty = dutyOf(cells, label)
    if (!duty) continue
    const key = JSON.stringify([keyOf(label), duty.fields.key])
    const first = rowOfDuty.get(key)
    if (first !== undefined) cells.complain('duty', `${label} has this duty already on row ${first}.`)
    else rowOfDuty.set(key, row.line)
    if (!cells.faulty) drafts.duties.push(duty)
  }
  for (const { heading } of keptColumns(table, mapping)) {
    drafts.notices.push({
      row: null,
      column: heading,
      value: '',
      message: `"${heading}" has no place in a duty and is left out.`,
    })
  }
  return { ...drafts, labels: labels.list, problems: cells.problems }
}

function dutyOf(cells: Cells, wellLabel: string): DutyDraft | null {
  const name = cells.neededText('duty')
  if (name !== null && !/[\p{L}\p{N}]/u.test(name)) cells.complain('duty', 'A duty needs a name in letters.')
  const months = cells.months('every_months')
  const run = positive(cells, 'every_hours')
  const volume = positive(cells, 'every')
  const condition = choice(cells, 'condition', CONDITION_KINDS)
  const limit = limitOf(cells, condition)
  const consequence = choice(cells, 'consequence', CONSEQUENCES)
  const lastDoneOn = cells.day('last_done')
  if (cells.faulty || name === null) return null
  return {
    wellLabel,
    row: cells.line,
    consequenceGiven: consequence !== null,
    fields: {
      key: slug(name),
      name,
      consequence: consequence ?? 'supply',
      everyMonths: months?.months ?? null,
      everyRunS: run?.si ?? null,
      everyM3: volume?.si ?? null,
      condition,
      conditionLimitSi: limit?.si ?? null,
      lastDoneOn,
      typed: typedOf({ everyRunS: run?.typed, everyM3: volume?.typed, conditionLimitSi: limit?.typed }),
    },
  }
}

function positive(cells: Cells, field: string) {
  const quantity = cells.quantity(field)
  if (quantity?.si === 0)
    cells.complain(field, 'A limit of 0 would always be past: leave it blank or give a number.')
  return quantity
}

/** A limit is a length, a pressure, a share or a flow: its condition has to say which. */
function limitOf(cells: Cells, condition: ConditionKind | null) {
  if (condition === null) {
    if (cells.typed('condition_limit') !== '')
      cells.complain('condition', `A limit needs its condition: ${CONDITION_KINDS.join(', ')}.`)
    return null
  }
  const limit = cells.quantity('condition_limit', LIMIT_DIMENSIONS[condition])
  if (limit === null && !cells.faulty) cells.complain('condition_limit', 'A condition needs its limit.')
  return limit
}

function choice<T extends string>(cells: Cells, field: string, choices: readonly T[]): T | null {
  const text = cells.text(field)
  if (text === null) return null
  const key = text.toLowerCase().replace(/[\s-]+/g, '_')
  const found = choices.find((known) => known === key)
  if (found === undefined) cells.complain(field, `"${text}" is none of ${choices.join(', ')}.`)
  return found ?? null
}

function keptColumns(table: Table, mapping: Mapping): { heading: string }[] {
  return table.header.flatMap((heading, column) => {
    const filled = table.rows.some(({ cells }) => (cells[column] ?? '').trim() !== '')
    return filled && (mapping[column] ?? 'keep') === 'keep' ? [{ heading }] : []
  })
}
