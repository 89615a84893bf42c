import type { Fact, StoredQuantity } from './kinds'

export type TypedText = { what: string; typed: string }

/**
 * The quantities of a line as they were typed, in the order of its sentence: what stands behind the numbers shown.
 * Readings of a test are left to its table, results of a sample are shown as written anyway.
 */
export function typedTexts(fact: Fact): TypedText[] {
  return quantitiesOf(fact).flatMap(([what, quantity]) => {
    const typed = quantity?.typed.trim() ?? ''
    return typed === '' ? [] : [{ what, typed }]
  })
}

function quantitiesOf(fact: Fact): [what: string, quantity: StoredQuantity | undefined][] {
  switch (fact.kind) {
    case 'meter-reading':
      return [[fact.meter === 'hours' ? 'hour meter' : 'volume meter', fact.reading]]
    case 'level-reading':
      return [['level', fact.level]]
    case 'flow-reading':
      return [
        ['flow', fact.flow],
        ['pumped for', fact.pumped],
      ]
    case 'pressure-reading':
      return [
        ['pressure before', fact.before],
        ['pressure after', fact.after],
      ]
    case 'valve-test':
      return [
        ['at once', fact.before],
        ['after', fact.after],
        ['held for', fact.held],
      ]
    case 'brush-length':
      return fact.lengths.map((length, index) => [`brush ${index + 1}`, length])
    case 'electrical-reading':
      return [
        ['amps', fact.amps],
        ['volts', fact.volts],
      ]
    case 'recovery-test':
    case 'step-test':
      return [['static level', fact.static]]
    case 'drawdown-test':
      return [
        ['flow', fact.flow],
        ['static level', fact.static],
      ]
    case 'event':
      return [
        ['old meter', fact.oldReading],
        ['new meter', fact.newReading],
      ]
    case 'sample':
      return [['temperature on arrival', fact.receivedTemp]]
    case 'water-step':
      return fact.step === 'disinfected'
        ? [
            ['product', fact.volume],
            ['stood for', fact.contact],
          ]
        : []
    case 'place-measured':
      return [
        ...fact.ties.map(({ mark, tape }): [string, StoredQuantity] => [`tape from ${mark}`, tape]),
        ['cover', fact.cover],
      ]
    case 'service-done':
    case 'sanitary-inspection':
    case 'note':
    case 'tank-level':
    case 'visit-request':
    case 'visit-answer':
    case 'confirmation':
    case 'owner-answer':
      return []
  }
}
