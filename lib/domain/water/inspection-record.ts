/** The newest sanitary inspection of a well, read together with its newest E. coli result. */
import type { Day } from '@/lib/domain/quantity/day'
import { dayOfMoment } from './moment'
import { type CombinedRisk, combinedRisk, type Inspection, type InspectionAnswer, inspect } from './sanitary'
import { GROUNDWATER_2030, type SanitaryForm, WHO_DUG_WELL } from './tables/sanitary'
import type { Result, Sample } from './types'

export const SANITARY_FORMS: readonly SanitaryForm[] = [WHO_DUG_WELL, GROUNDWATER_2030]

/** An inspection as written down: the form's id, and 'q1', 'q2' ... to their answers. */
export type InspectionRecord = {
  id: string
  on: Day
  form: string
  answers: Readonly<Record<string, InspectionAnswer>>
}

export type SanitaryStanding = {
  id: string
  on: Day
  form: { id: string; title: string }
  inspection: Inspection
  /** The questions answered "yes": the risks that were seen. */
  risks: readonly string[]
  /** Questions answered "not sure" or not at all. */
  open: readonly string[]
  /** The E. coli result it is read with; null where there is none. */
  coli: { on: Day; sampleId: string } | null
  combined: CombinedRisk
}

/** The standing of the newest inspection on a form known here; null where there is none. */
export function sanitaryStanding(
  inspections: readonly InspectionRecord[],
  samples: readonly Sample[],
): SanitaryStanding | null {
  const known = inspections
    .flatMap((record) => {
      const form = SANITARY_FORMS.find(({ id }) => id === record.form)
      return form ? [{ record, form }] : []
    })
    .sort((a, b) =>
      a.record.on < b.record.on ? 1 : a.record.on > b.record.on ? -1 : a.record.id < b.record.id ? 1 : -1,
    )
  const [newest] = known
  if (!newest) return null
  const { record, form } = newest
  const answers = form.questions.map((_, i) => record.answers[`q${i + 1}`] ?? null)
  const asked = (wanted: readonly (InspectionAnswer | null)[]) =>
    form.questions.filter((_, i) => wanted.includes(answers[i] ?? null))
  const inspection = inspect(form, answers)
  const coli = newestColi(samples)
  return {
    id: record.id,
    on: record.on,
    form: { id: form.id, title: form.title },
    inspection,
    risks: asked(['yes']),
    open: asked(['not-sure', null]),
    coli: coli && { on: coli.on, sampleId: coli.sampleId },
    combined: combinedRisk(inspection, coli?.result ?? null),
  }
}

/** The newest E. coli result; total coliform that was absent, where E. coli was not tested, is absent E. coli as well. */
function newestColi(samples: readonly Sample[]): { on: Day; sampleId: string; result: Result } | null {
  const found = samples.flatMap((sample) => {
    const usable = sample.results.filter((each) => each.operator !== 'none' && each.leftOut === undefined)
    const result =
      usable.find((each) => each.analyte === 'e-coli') ??
      usable.find((each) => each.analyte === 'total-coliform' && each.operator === 'absent')
    return result
      ? [{ on: dayOfMoment(sample.sampledAt), at: sample.sampledAt, sampleId: sample.id, result }]
      : []
  })
  return found.sort((a, b) => (a.at < b.at ? 1 : -1))[0] ?? null
}
