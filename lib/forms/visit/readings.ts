import { CARTRIDGE_SIDES, type StoredQuantity } from '@/lib/domain/logbook/kinds'
import { type Day, daysShown, formatQuantity } from '@/lib/domain/quantity'
import { questionReading } from '@/lib/domain/upkeep'
import type { MeterSoFar, VisitContext } from './context'
import type { Line } from './lines'
import type { Reader } from './reader'
import { BRUSHES_MAX } from './shape'

/** Gauge readings typed on the form, each a line of its own. */
export function readingLines(reader: Reader, context: VisitContext, on: Day): Line[] {
  return [
    ...meterLine(reader, 'hourMeter', 'hours', context.hours, on),
    ...meterLine(reader, 'volumeMeter', 'volume', context.volume, on),
    ...levelLines(reader, context),
    ...flowLine(reader),
    ...pressureLine(reader),
    ...valveLine(reader),
    ...brushLine(reader),
    ...electricalLine(reader),
  ]
}

/** A backward or absurd reading is asked about; what was answered is stored with it. */
function meterLine(
  reader: Reader,
  field: string,
  meter: 'hours' | 'volume',
  track: MeterSoFar,
  on: Day,
): Line[] {
  const reading = reader.quantity(field, meter === 'hours' ? 'hours' : 'volume')
  if (!reading) return []
  const odd = questionReading(track, { on, value: reading.si, id: '', explained: null }, meter)
  let explained: 'replaced' | 'rolled-over' | 'kept' | null = null
  if (odd) {
    const answer = reader.ask(field, {
      message: daysShown(odd.message, reader.system),
      choices: [
        { value: 'replaced', label: 'The meter was replaced' },
        { value: 'rolled-over', label: 'The meter went past its last figure and began again' },
        { value: 'kept', label: 'I looked twice: keep it as written, and do not reckon with it' },
      ],
    })
    if (answer === null) return []
    explained = answer === 'replaced' || answer === 'rolled-over' ? answer : 'kept'
  }
  return [{ slot: meter, fact: { kind: 'meter-reading', meter, reading, explained } }]
}

function levelLines(reader: Reader, context: VisitContext): Line[] {
  const rest = reader.quantity('staticLevel', 'depth')
  const pumping = reader.quantity('pumpingLevel', 'depth')
  const lines: Line[] = []
  if (rest && levelStands(reader, 'staticLevel', rest, context)) {
    lines.push({ slot: 'static', fact: { kind: 'level-reading', level: rest, state: 'rest' } })
  }
  if (pumping && levelStands(reader, 'pumpingLevel', pumping, context) && belowRest(reader, rest, pumping)) {
    lines.push({ slot: 'pumping', fact: { kind: 'level-reading', level: pumping, state: 'pumping' } })
  }
  return lines
}

/** The answer of a person who stands by an odd reading. */
export const AS_WRITTEN = { value: 'sure', label: 'I looked twice: it is as written' }

/** A level below the bottom of the well is a slip of unit or digit: asked about, true where it stands. */
export function levelStands(
  reader: Reader,
  field: string,
  level: StoredQuantity,
  context: Pick<VisitContext, 'wellDepthM' | 'system'>,
): boolean {
  const { wellDepthM, system } = context
  if (wellDepthM === null || level.si <= wellDepthM) return true
  const asFeet = level.si * 0.3048
  const guess =
    system === 'metric' && asFeet <= wellDepthM ? ' It looks like feet: write "ft" behind it if so.' : ''
  const message = `${formatQuantity(level.si, 'depth', system)} is deeper than the well (${formatQuantity(wellDepthM, 'depth', system)}).${guess} Is it right?`
  return reader.ask(field, { message, choices: [AS_WRITTEN] }) !== null
}

/** Water does not stand higher while the pump draws: the two were likely swapped. */
function belowRest(reader: Reader, rest: StoredQuantity | undefined, pumping: StoredQuantity): boolean {
  if (!rest || pumping.si >= rest.si) return true
  const message =
    'The pumping level is above the level at rest. Were the two swapped? Correct them, or say that it is so.'
  return reader.ask('pumpingLevel', { message, choices: [AS_WRITTEN] }) !== null
}

function flowLine(reader: Reader): Line[] {
  const flow = reader.quantity('flow', 'flow')
  const pumped = reader.quantity('pumpedMinutes', 'minutes')
  if (pumped && !flow && reader.text('flow') === '') {
    reader.refuse('flow', 'Enter the flow too, or leave the minutes pumped blank')
  }
  if (!flow) return []
  return [{ slot: 'flow', fact: { kind: 'flow-reading', flow, ...(pumped ? { pumped } : {}) } }]
}

function pressureLine(reader: Reader): Line[] {
  const before = reader.quantity('pressureBefore', 'pressure')
  const after = reader.quantity('pressureAfter', 'pressure')
  const cartridge = CARTRIDGE_SIDES.find((side) => side === reader.text('pressureCartridge'))
  if (!before && !after) {
    if (cartridge && !reader.errors.pressureBefore && !reader.errors.pressureAfter)
      reader.refuse('pressureBefore', 'Enter the pressures too, or leave open across which cartridge')
    return []
  }
  if (before && after && after.si > before.si) {
    const answer = reader.ask('pressureAfter', {
      message: 'The pressure after the cartridge is higher than before it. Were the two swapped?',
      choices: [AS_WRITTEN],
    })
    if (answer === null) return []
  }
  return [
    {
      slot: 'pressure',
      fact: {
        kind: 'pressure-reading',
        ...(before ? { before } : {}),
        ...(after ? { after } : {}),
        ...(cartridge ? { cartridge } : {}),
      },
    },
  ]
}

/** All three or none: a test without its time says nothing. */
function valveLine(reader: Reader): Line[] {
  const before = reader.quantity('valveBefore', 'pressure')
  const after = reader.quantity('valveAfter', 'pressure')
  const held = reader.quantity('valveMinutes', 'minutes')
  const fields = ['valveBefore', 'valveAfter', 'valveMinutes']
  const blank = fields.filter((field) => reader.text(field) === '')
  if (blank.length === fields.length) return []
  for (const field of blank)
    reader.refuse(field, 'A test of the check valve needs both pressures and the minutes between them')
  return before && after && held ? [{ slot: 'valve', fact: { kind: 'valve-test', before, after, held } }] : []
}

function brushLine(reader: Reader): Line[] {
  const lengths: StoredQuantity[] = []
  for (let i = 1; i <= BRUSHES_MAX; i += 1) {
    const length = reader.quantity(`brush${i}`, 'brush')
    if (length) lengths.push(length)
  }
  return lengths.length > 0 ? [{ slot: 'brushes', fact: { kind: 'brush-length', lengths } }] : []
}

function electricalLine(reader: Reader): Line[] {
  const amps = reader.quantity('amps', 'current')
  const volts = reader.quantity('volts', 'voltage')
  if (!amps && !volts) return []
  return [
    {
      slot: 'electrical',
      fact: { kind: 'electrical-reading', ...(amps ? { amps } : {}), ...(volts ? { volts } : {}) },
    },
  ]
}
