import { chainName } from '@/lib/domain/water/chain-marks'
import type { LogVisit } from './history'

/** A positive that stood on a lab sheet once and does not any more. */
export type TakenBack = {
  sampleId: string
  sampledAt: string
  /** Plain names of what it was positive for. */
  names: string[]
  how: 'withdrawn' | 'corrected'
  by: string | null
  reason: string
  recordedAt: string
}

/**
 * Positives that were taken back, newest first. `positiveFor` answers the chains that a sheet as worded is positive for, under
 * the id of its line.
 */
export function takenBack(
  visits: readonly LogVisit[],
  positiveFor: (sheet: SheetFact, id: string) => readonly string[],
): TakenBack[] {
  const found = visits
    .flatMap(({ lines }) => lines)
    .flatMap((line): TakenBack[] => {
      const worded = line.history.flatMap((step) =>
        'fact' in step && step.fact.kind === 'sample' ? [step.fact] : [],
      )
      const [first] = worded
      const left = new Set(line.stands && line.fact.kind === 'sample' ? positiveFor(line.fact, line.id) : [])
      const lost = [...new Set(worded.flatMap((fact) => positiveFor(fact, line.id)))].filter(
        (chain) => !left.has(chain),
      )
      const step = line.history.filter(({ kind, stands }) => stands && kind !== 'written').at(-1)
      if (!first || lost.length === 0 || !step || !('reason' in step)) return []
      const { by, reason, recordedAt } = step
      return [
        {
          sampleId: line.id,
          sampledAt: first.sampledAt,
          names: lost.map(chainName),
          how: line.stands ? 'corrected' : 'withdrawn',
          by,
          reason,
          recordedAt,
        },
      ]
    })
  return found.sort((a, b) => (a.recordedAt < b.recordedAt ? 1 : -1))
}

type SheetFact = Extract<LogVisit['lines'][number]['fact'], { kind: 'sample' }>
