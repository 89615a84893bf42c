import { CHLORINE_GONE, type Fact, WATER_STEPS } from '@/lib/domain/logbook/kinds'
import { AGAIN_EVENTS } from '@/lib/domain/water/events'
import { NOTICE_KINDS } from '@/lib/domain/water/tables/notices'
import type { Line, Slot } from './lines'
import type { Reader } from './reader'

type WaterStep = Extract<Fact, { kind: 'water-step' }>
type StepName = WaterStep['step']

const SLOT_OF: Readonly<Record<StepName, Slot>> = {
  notice: 'water-notice',
  disinfected: 'water-disinfected',
  flushed: 'water-flushed',
  remedied: 'water-remedied',
  'well-repaired': 'water-repaired',
  'chain-closed': 'water-closed',
  'test-again': 'water-again',
}

/**
 * The steps of a chain written on a visit. A step is written where its box `water:STEP` is ticked; details without the tick
 * are refused, so that nothing typed is lost. `waterChain`: the chain they are about; blank: every open one.
 */
export function waterLines(reader: Reader): Line[] {
  return WATER_STEPS.flatMap((step): Line[] => {
    if (reader.text(`water:${step}`) === '') {
      const typed = DETAILS[step].find((field) => reader.text(field) !== '')
      if (typed !== undefined)
        reader.refuse(`water:${step}`, 'Tick this too, or clear what is typed under it')
      return []
    }
    const fact = READERS[step](reader)
    return fact ? [{ slot: SLOT_OF[step], fact }] : []
  })
}

/** The fields of each step. */
const DETAILS: Readonly<Record<StepName, readonly string[]>> = {
  notice: ['noticeTo', 'noticeHow'],
  disinfected: ['doseTarget', 'doseProduct', 'doseStrength', 'doseVolume', 'doseMass', 'doseContact'],
  flushed: ['flushWhere'],
  remedied: ['remedyWhat'],
  'well-repaired': ['repairWhat'],
  'chain-closed': ['closedBy', 'closedReason'],
  'test-again': ['againEvent'],
}

const READERS: Readonly<Record<StepName, (reader: Reader) => WaterStep | null>> = {
  notice: readNotice,
  disinfected: readDisinfection,
  flushed: readFlush,
  remedied: (reader) => {
    const what = needed(reader, 'remedyWhat', 'remedy', 500, 'Say what was done about it')
    return what ? { kind: 'water-step', step: 'remedied', what, ...chainOf(reader) } : null
  },
  'well-repaired': (reader) => {
    const what = needed(reader, 'repairWhat', 'repair', 500, 'Say what was repaired')
    return what ? { kind: 'water-step', step: 'well-repaired', what } : null
  },
  'chain-closed': readClosing,
  'test-again': (reader) => {
    const event = AGAIN_EVENTS.find((known) => known === reader.text('againEvent'))
    if (!event) reader.refuse('againEvent', 'Choose what happened')
    return event ? { kind: 'water-step', step: 'test-again', event } : null
  },
}

function readNotice(reader: Reader): WaterStep | null {
  const notice = NOTICE_KINDS.find((known) => known === reader.text('noticeKind'))
  if (!notice) reader.refuse('noticeKind', 'Choose which notice was given')
  const to = needed(reader, 'noticeTo', 'name', 200, 'Say who was told')
  const how = reader.optional('noticeHow', 'way it was given', 120)
  if (!notice || !to) return null
  return { kind: 'water-step', step: 'notice', notice, to, ...(how ? { how } : {}), ...chainOf(reader) }
}

function readDisinfection(reader: Reader): WaterStep {
  const targetMgL = plainNumber(reader, 'doseTarget', 10_000, 'The strength in the well is a number of mg/L')
  const product = reader.optional('doseProduct', 'name of the product', 120)
  const strengthPercent = plainNumber(reader, 'doseStrength', 100, 'The strength on the label is a per cent')
  const volume = reader.quantity('doseVolume', 'volume')
  const massG = plainNumber(reader, 'doseMass', 1_000_000, 'The amount of dry product is a number of grams')
  const contact = reader.quantity('doseContact', 'hours')
  return {
    kind: 'water-step',
    step: 'disinfected',
    ...(targetMgL === undefined ? {} : { targetMgL }),
    ...(product ? { product } : {}),
    ...(strengthPercent === undefined ? {} : { strengthPercent }),
    ...(volume ? { volume } : {}),
    ...(massG === undefined ? {} : { massG }),
    ...(contact ? { contact } : {}),
  }
}

function readFlush(reader: Reader): WaterStep | null {
  const chlorineGone = CHLORINE_GONE.find((known) => known === reader.text('chlorineGone'))
  if (!chlorineGone) reader.refuse('chlorineGone', 'Say whether chlorine was still found')
  const where = reader.optional('flushWhere', 'place', 200)
  return chlorineGone
    ? { kind: 'water-step', step: 'flushed', chlorineGone, ...(where ? { where } : {}) }
    : null
}

function readClosing(reader: Reader): WaterStep | null {
  const by = needed(reader, 'closedBy', 'name', 120, 'A chain is closed by a person with a name: enter it')
  const reason = needed(
    reader,
    'closedReason',
    'reason',
    500,
    'Say why the chain is closed without clear samples',
  )
  return by && reason ? { kind: 'water-step', step: 'chain-closed', by, reason, ...chainOf(reader) } : null
}

function chainOf(reader: Reader): { chain?: string } {
  const chain = reader.optional('waterChain', 'chain', 60)
  return chain ? { chain } : {}
}

function needed(
  reader: Reader,
  field: string,
  what: string,
  max: number,
  message: string,
): string | undefined {
  const text = reader.optional(field, what, max)
  if (text === undefined) reader.refuse(field, message)
  return text
}

/** A plain number above zero; a unit behind it is refused, as it is fixed by the label. */
function plainNumber(reader: Reader, field: string, most: number, message: string): number | undefined {
  const text = reader.text(field)
  if (text === '') return undefined
  const value = /^\d+(?:\.\d+)?$/.test(text) ? Number(text) : Number.NaN
  if (value > 0 && value <= most) return value
  reader.refuse(field, `${message}, above 0 and at most ${most.toLocaleString('en-US')}`)
  return undefined
}
