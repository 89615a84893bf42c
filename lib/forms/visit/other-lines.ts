import { EVENTS, type Fact, PART_KINDS, SANITARY_ANSWERS } from '@/lib/domain/logbook/kinds'
import { slug } from '@/lib/domain/upkeep'
import { WHO_DUG_WELL } from '@/lib/domain/water/tables/sanitary'
import type { VisitContext } from './context'
import type { Line } from './lines'
import type { Reader } from './reader'
import { PART_ROWS } from './shape'

/** Work done: duties ticked, other work in words, and parts fitted. */
export function serviceLine(reader: Reader, context: VisitContext): Line[] {
  const ticked = context.duties.filter((duty) => reader.text(`duty:${duty.key}`) !== '')
  const other = reader.optional('otherWork', 'other work', 120)
  const duties = ticked.map((duty) => ({ key: duty.key, name: duty.name }))
  if (other && !hasWord(other)) reader.refuse('otherWork', 'Name the other work in words')
  else if (other) duties.push({ key: slug(other), name: other })
  const parts = partRows(reader)
  if (duties.length === 0) {
    if (parts.length > 0)
      reader.refuse('partKind1', 'Tick the work for which the part was fitted, or name it under other work')
    return []
  }
  return [
    {
      slot: 'service',
      fact: {
        kind: 'service-done',
        duties: duties.map((d) => d.key),
        names: duties.map((d) => d.name),
        parts,
      },
    },
  ]
}

/** Whether a text has a letter or digit in it: what names work must. */
export const hasWord = (text: string): boolean => /[\p{L}\p{N}]/u.test(text)

type PartFitted = Extract<Fact, { kind: 'service-done' }>['parts'][number]

function partRows(reader: Reader): PartFitted[] {
  const parts: PartFitted[] = []
  for (let i = 1; i <= PART_ROWS; i += 1) {
    const part = PART_KINDS.find((kind) => kind === reader.text(`partKind${i}`))
    const model = reader.optional(`partModel${i}`, 'model of the part', 120)
    const countText = reader.text(`partCount${i}`)
    if (!part) {
      if (model || reader.text(`partWarranty${i}`) !== '')
        reader.refuse(`partKind${i}`, 'Choose what kind of part it is')
      continue
    }
    const count = countText === '' ? 1 : Number(countText)
    if (!Number.isInteger(count) || count < 1 || count > 99) {
      reader.refuse(`partCount${i}`, 'The number of parts must be a whole number from 1 to 99')
      continue
    }
    const warrantyMonths = warrantyOf(reader, `partWarranty${i}`, reader.text(`partWarranty${i}`))
    parts.push({ part, count, ...(model ? { model } : {}), ...(warrantyMonths ? { warrantyMonths } : {}) })
  }
  return parts
}

const WARRANTY_MAX = 600

/** Months of warranty as typed; undefined where blank or refused. */
export function warrantyOf(reader: Reader, field: string, text: string): number | undefined {
  if (text === '') return undefined
  const months = Number(text.replace(/ ?months?$/i, ''))
  if (Number.isInteger(months) && months >= 1 && months <= WARRANTY_MAX) return months
  reader.refuse(field, `The warranty is a whole number of months from 1 to ${WARRANTY_MAX}`)
  return undefined
}

/** The sanitary inspection; questions left open are left out, and are not "no". */
export function sanitaryLine(reader: Reader): Line[] {
  const answers: Record<string, (typeof SANITARY_ANSWERS)[number]> = {}
  WHO_DUG_WELL.questions.forEach((_, i) => {
    const answer = SANITARY_ANSWERS.find((known) => known === reader.text(`sanitary:q${i + 1}`))
    if (answer) answers[`q${i + 1}`] = answer
  })
  if (Object.keys(answers).length === 0) return []
  return [{ slot: 'sanitary', fact: { kind: 'sanitary-inspection', form: WHO_DUG_WELL.id, answers } }]
}

export function eventLine(reader: Reader): Line[] {
  const event = EVENTS.find((known) => known === reader.text('event'))
  if (!event) return []
  if (event !== 'meter-replaced') return [{ slot: 'event', fact: { kind: 'event', event } }]
  const meter = reader.text('eventMeter')
  if (meter !== 'hours' && meter !== 'volume') {
    reader.refuse('eventMeter', 'Choose which meter was replaced')
    return []
  }
  const use = meter === 'hours' ? 'hours' : 'volume'
  const oldReading = reader.quantity('eventOldReading', use)
  const newReading = reader.quantity('eventNewReading', use)
  return [
    {
      slot: 'event',
      fact: {
        kind: 'event',
        event,
        meter,
        ...(oldReading ? { oldReading } : {}),
        ...(newReading ? { newReading } : {}),
      },
    },
  ]
}

export function noteLine(reader: Reader): Line[] {
  const text = reader.optional('note', 'note', 4000)
  return text ? [{ slot: 'note', fact: { kind: 'note', text } }] : []
}
