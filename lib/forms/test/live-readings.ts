import type { TestReadings } from '@/lib/domain/logbook/test-result'
import { dimensionOf, displayUnit, parseQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'
import { elapsedText, readingsToSend, stampS, type TestDraft, type TestKind } from './draft'

/**
 * The readings of a draft that can be reckoned already: those with a level that reads as one. Half-typed text waits;
 * nothing is complained about here, since the person is still typing.
 */
export function liveReadings(
  kind: Exclude<TestKind, 'step'>,
  draft: TestDraft,
  system: UnitSystem,
): TestReadings {
  const value = (text: string | undefined, use: Use) => typedSi(text ?? '', use, system)
  const readings = readingsToSend(draft).flatMap((reading) => {
    const elapsedS =
      reading.elapsed === '' ? stampS(draft, reading) : value(elapsedText(draft, reading), 'minutes')
    const levelM = value(reading.level, 'depth')
    return elapsedS === null || levelM === null ? [] : [{ elapsedS, levelM }]
  })
  const staticM = value(draft.fields.static, 'depth')
  readings.sort((a, b) => a.elapsedS - b.elapsedS)
  return kind === 'recovery'
    ? { kind, staticM, readings }
    : { kind, staticM, flowM3PerS: value(draft.fields.flow, 'flow'), readings }
}

function typedSi(text: string, use: Use, system: UnitSystem): number | null {
  const unit = displayUnit(use, system)
  const reading = parseQuantity(text, { dimension: dimensionOf(unit), unit, locale: 'en', min: -10 })
  return reading.kind === 'value' ? reading.quantity.si : null
}
