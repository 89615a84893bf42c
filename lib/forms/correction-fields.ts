import { EVENT_WORDS } from '@/lib/domain/logbook/describe'
import { EVENTS, type Fact, type StoredQuantity } from '@/lib/domain/logbook/kinds'
import { type UnitSystem, type Use, unitSymbols } from '@/lib/domain/quantity'
import { type CorrectionField, quantityField, textField as text, typedFor } from './correction-field'
import { ownerFields } from './correction-owner'
import { inspectionFields, sampleFields, waterStepFields } from './correction-water'

export type { CorrectionField } from './correction-field'

/**
 * The fields in which a line of the logbook is corrected, each with what was typed. The names are
 * those of the visit form, so that the same reading (lib/forms/visit) serves both. A bare number that was typed under
 * other units than `system` comes with its unit.
 */
export function correctionFields(fact: Fact, system: UnitSystem): CorrectionField[] {
  const line = lineIn(system)
  switch (fact.kind) {
    case 'service-done':
      return [
        text(
          'workDone',
          'Work done, one a line',
          fact.names.length > 0 ? fact.names.join('\n') : fact.duties.join('\n'),
          'lines',
        ),
        text(
          'partsFitted',
          'Parts fitted, one a line: part, how many, model, warranty 24 months',
          fact.parts.map(partText).join('\n'),
          'lines',
        ),
      ]
    case 'meter-reading':
      return fact.meter === 'hours'
        ? [line('hourMeter', 'Hour meter', fact.reading, 'hours')]
        : [line('volumeMeter', 'Volume meter', fact.reading, 'volume')]
    case 'level-reading':
      return fact.state === 'rest'
        ? [line('staticLevel', 'Water level at rest', fact.level, 'depth')]
        : [line('pumpingLevel', 'Water level while pumping', fact.level, 'depth')]
    case 'flow-reading':
      return [
        line('flow', 'Flow', fact.flow, 'flow'),
        line('pumpedMinutes', 'Pumped for', fact.pumped, 'minutes'),
      ]
    case 'pressure-reading':
      return [
        line('pressureBefore', 'Pressure before the cartridge', fact.before, 'pressure'),
        line('pressureAfter', 'Pressure after the cartridge', fact.after, 'pressure'),
        {
          name: 'pressureCartridge',
          label: 'Read across, if the cartridge was changed that day',
          value: fact.cartridge ?? '',
          input: 'choice',
          options: CARTRIDGE_OPTIONS,
        },
      ]
    case 'valve-test':
      return [
        line('valveBefore', 'Pressure when the pump stopped', fact.before, 'pressure'),
        line('valveAfter', 'Pressure after the wait', fact.after, 'pressure'),
        line('valveMinutes', 'Minutes between them', fact.held, 'minutes'),
      ]
    case 'brush-length':
      return [0, 1, 2, 3].map((i) => line(`brush${i + 1}`, `Brush ${i + 1} length`, fact.lengths[i], 'brush'))
    case 'electrical-reading':
      return [line('amps', 'Current', fact.amps, 'current'), line('volts', 'Voltage', fact.volts, 'voltage')]
    case 'event':
      return [
        {
          name: 'event',
          label: 'Event',
          value: fact.event,
          input: 'choice',
          options: EVENTS.map((e) => ({ value: e, label: EVENT_WORDS[e] })),
        },
        {
          name: 'eventMeter',
          label: 'Meter, if one was replaced',
          value: fact.meter ?? '',
          input: 'choice',
          options: [
            { value: '', label: 'none' },
            { value: 'hours', label: 'hour meter' },
            { value: 'volume', label: 'volume meter' },
          ],
        },
        text(
          'eventOldReading',
          'Last reading of the old meter',
          meterText(fact.oldReading, fact.meter, system),
        ),
        text(
          'eventNewReading',
          'First reading of the new meter',
          meterText(fact.newReading, fact.meter, system),
        ),
      ]
    case 'note':
      return [text('note', 'Note', fact.text, 'lines')]
    case 'tank-level':
    case 'visit-request':
    case 'visit-answer':
    case 'confirmation':
    case 'owner-answer':
      return ownerFields(fact)
    case 'place-measured':
      // Corrected on the form on which it was written (lib/forms/place).
      return []
    default:
      return longFields(fact, system)
  }
}

const CARTRIDGE_OPTIONS = [
  { value: '', label: 'not said' },
  { value: 'old', label: 'the old cartridge' },
  { value: 'new', label: 'the new cartridge' },
]

type Fitted = Extract<Fact, { kind: 'service-done' }>['parts'][number]

const partText = ({ part, count, model, warrantyMonths }: Fitted): string =>
  [part, count, model, warrantyMonths && `warranty ${warrantyMonths} months`].filter(Boolean).join(', ')

type LongFact = Extract<
  Fact,
  { kind: 'recovery-test' | 'drawdown-test' | 'step-test' | 'sample' | 'sanitary-inspection' | 'water-step' }
>

/** A reading of a meter as its unit asks; of no named meter, as typed. */
function meterText(
  reading: StoredQuantity | undefined,
  meter: 'hours' | 'volume' | undefined,
  system: UnitSystem,
): string | undefined {
  return reading && meter ? typedFor(reading, meter, system) : reading?.typed
}

const lineIn =
  (system: UnitSystem) => (name: string, label: string, quantity: StoredQuantity | undefined, use: Use) =>
    quantityField(name, label, quantity, use, system)

function longFields(fact: LongFact, system: UnitSystem): CorrectionField[] {
  const line = lineIn(system)
  const symbols = unitSymbols(system)
  const timedLabel = `Readings, one a line: minutes; level in ${symbols.depth}`
  switch (fact.kind) {
    case 'recovery-test':
      return [
        line('recoveryStatic', 'Level at rest before the test', fact.static, 'depth'),
        text('recoveryReadings', timedLabel, timed(fact.readings, system), 'lines'),
      ]
    case 'drawdown-test':
      return [
        line('drawdownStatic', 'Level at rest', fact.static, 'depth'),
        line('drawdownFlow', 'Pumped at', fact.flow, 'flow'),
        text('drawdownReadings', timedLabel, timed(fact.readings, system), 'lines'),
      ]
    case 'step-test':
      return [
        line('stepStatic', 'Level at rest before the steps', fact.static, 'depth'),
        text(
          'stepReadings',
          `Steps, one a line: flow in ${symbols.flow}; minutes; level in ${symbols.depth}`,
          fact.steps
            .map(({ flow, duration, level }) =>
              [
                typedFor(flow, 'flow', system),
                typedFor(duration, 'minutes', system),
                typedFor(level, 'depth', system),
              ].join('; '),
            )
            .join('\n'),
          'lines',
        ),
      ]
    case 'sample':
      return sampleFields(fact, system)
    case 'sanitary-inspection':
      return inspectionFields(fact)
    case 'water-step':
      return waterStepFields(fact, system)
  }
}

/** Readings as lines of time and level. */
function timed(
  readings: readonly { elapsed: StoredQuantity; level: StoredQuantity }[],
  system: UnitSystem,
): string {
  return readings
    .map(
      ({ elapsed, level }) => `${typedFor(elapsed, 'minutes', system)}; ${typedFor(level, 'depth', system)}`,
    )
    .join('\n')
}
