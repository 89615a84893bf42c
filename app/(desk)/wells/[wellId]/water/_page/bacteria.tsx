import { showDay } from '@/app/ui/show-day'
import { Status, type Tone } from '@/app/ui/status'
import type { UnitSystem } from '@/lib/domain/quantity'
import { findAnalyte } from '@/lib/domain/water/analytes'
import type { WaterStanding } from '@/lib/domain/water/appraise'
import type { SeriesPoint } from '@/lib/domain/water/series'
import { SampleLink } from './sample-link'

type Props = { wellId: string; water: WaterStanding; units: UnitSystem }

/** Bacteria have no curve: a strip of days for each kind, newest first, each a word and a shape. */
export function Bacteria({ wellId, water, units }: Props) {
  const kinds = water.series.filter(({ analyte }) => findAnalyte(analyte)?.measure === 'count')
  if (kinds.length === 0) return null
  return (
    <section className="stack-tight" aria-labelledby="bacteria">
      <h2 id="bacteria">Bacteria by day</h2>
      {kinds.map(({ analyte, name, points }) => {
        const found = points.filter((point) => readingOf(point, analyte, water).tone === 'alarm').length
        return (
          <section key={analyte} className="stack-tight" aria-label={name}>
            <h3>{name}</h3>
            <p>
              {points.length === 1 ? 'One result' : `${points.length} results`}, found in{' '}
              {found === 0 ? 'none' : found} of them.
            </p>
            <ol className="date-strip">
              {[...points].reverse().map((point) => {
                const { tone, word } = readingOf(point, analyte, water)
                return (
                  <li key={point.sampleId}>
                    <Status tone={tone}>{word}</Status>
                    <SampleLink wellId={wellId} sampleId={point.sampleId}>
                      {showDay(point.on, units)}
                      <span className="unseen">: lab sheet with {name}</span>
                    </SampleLink>
                  </li>
                )
              })}
            </ol>
          </section>
        )
      })}
    </section>
  )
}

/** What a result says, by the judgment of its sheet: a late or warm one is never told as clear. */
function readingOf(point: SeriesPoint, analyte: string, water: WaterStanding): { tone: Tone; word: string } {
  const sheet = water.samples.find((each) => each.sampleId === point.sampleId)
  const own = (sheet?.findings ?? []).filter((finding) => finding.analyte === analyte)
  const isFound =
    point.reads === 'present' ||
    point.reads === 'above' ||
    (point.reads === 'number' && (point.value ?? 0) > 0)
  if (isFound) return { tone: 'alarm', word: `found: ${point.typed}` }
  if (own.some((finding) => finding.verdict === 'inconclusive'))
    return { tone: 'watch', word: `cannot be said: ${point.typed}` }
  if (point.reads === 'unknown') return { tone: 'unsure', word: point.typed || 'no result' }
  if (sheet?.afterTreatment) return { tone: 'unsure', word: `after treatment, none found: ${point.typed}` }
  return { tone: 'calm', word: `none found: ${point.typed}` }
}
