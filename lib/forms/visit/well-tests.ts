import type { StoredQuantity } from '@/lib/domain/logbook/kinds'
import type { Line } from './lines'
import type { Reader } from './reader'

/** Recovery, drawdown and step tests, typed as lists: one reading a line, its parts set off by a comma, semicolon or tab. */
export function testLines(reader: Reader): Line[] {
  return [...recoveryLine(reader), ...drawdownLine(reader), ...stepLine(reader)]
}

function recoveryLine(reader: Reader): Line[] {
  const rest = reader.quantity('recoveryStatic', 'depth')
  const readings = timedLevels(reader, 'recoveryReadings')
  if (readings.length === 0) {
    if (rest && !reader.errors.recoveryReadings) {
      reader.refuse('recoveryReadings', 'Enter the readings of the recovery test, one a line: minutes, level')
    }
    return []
  }
  return [{ slot: 'recovery', fact: { kind: 'recovery-test', ...(rest ? { static: rest } : {}), readings } }]
}

function drawdownLine(reader: Reader): Line[] {
  const rest = reader.quantity('drawdownStatic', 'depth')
  const flow = reader.quantity('drawdownFlow', 'flow')
  const readings = timedLevels(reader, 'drawdownReadings')
  if (readings.length === 0) return []
  if (!flow) {
    reader.refuse('drawdownFlow', 'Enter the flow at which the well was pumped during the drawdown test')
    return []
  }
  return [
    { slot: 'drawdown', fact: { kind: 'drawdown-test', ...(rest ? { static: rest } : {}), flow, readings } },
  ]
}

function stepLine(reader: Reader): Line[] {
  const rest = reader.quantity('stepStatic', 'depth')
  const steps = rows(reader, 'stepReadings', 3, 'flow, minutes, level').flatMap(
    ([flowText, timeText, levelText]) => {
      const flow = reader.read('stepReadings', flowText ?? '', 'flow')
      const duration = reader.read('stepReadings', timeText ?? '', 'minutes')
      const level = reader.read('stepReadings', levelText ?? '', 'depth')
      return flow && duration && level ? [{ flow, duration, level }] : []
    },
  )
  if (steps.length === 0 || reader.errors.stepReadings) return []
  if (steps.length > 20) {
    reader.refuse('stepReadings', 'A step test has at most 20 steps')
    return []
  }
  return [{ slot: 'step', fact: { kind: 'step-test', ...(rest ? { static: rest } : {}), steps } }]
}

const READINGS_MAX = 500

function timedLevels(reader: Reader, field: string): { elapsed: StoredQuantity; level: StoredQuantity }[] {
  const readings = rows(reader, field, 2, 'minutes, level').flatMap(([timeText, levelText]) => {
    const elapsed = reader.read(field, timeText ?? '', 'minutes')
    const level = reader.read(field, levelText ?? '', 'depth')
    return elapsed && level ? [{ elapsed, level }] : []
  })
  if (readings.length > READINGS_MAX) reader.refuse(field, `A test has at most ${READINGS_MAX} readings`)
  return reader.errors[field] ? [] : readings
}

/** The lines of a list field, split into exactly `parts` pieces; a line of another shape is refused by its number. */
function rows(reader: Reader, field: string, parts: number, shape: string): string[][] {
  const lines = reader.text(field).split(/\r?\n/)
  return lines.flatMap((line, i) => {
    if (line.trim() === '') return []
    const pieces = line
      .split(/[\t;]|,\s|,(?=\s*\d)/)
      .map((piece) => piece.trim())
      .filter(Boolean)
    // "5  7.42": blanks alone set off plain numbers.
    const split = pieces.length === 1 && /^[\d.\s]+$/.test(line) ? line.trim().split(/\s+/) : pieces
    if (split.length === parts) return [split]
    reader.refuse(field, `Line ${i + 1} ("${line.trim().slice(0, 40)}") must read: ${shape}`)
    return []
  })
}
