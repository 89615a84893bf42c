import type { Viewer } from '@/lib/access/viewer'
import { reckon } from '@/lib/domain/logbook/appraise'
import type { LogLine } from '@/lib/domain/logbook/history'
import type { Fact } from '@/lib/domain/logbook/kinds'
import { sampleOf } from '@/lib/domain/logbook/water-sample'
import type { NextStep } from '@/lib/domain/water/appraise'
import type { Sample } from '@/lib/domain/water/types'
import type { SampleVerdict } from '@/lib/domain/water/verdict-types'
import { type AttachmentRow, attachmentsOf } from './attachments'
import type { Db } from './db'
import { logbookOf } from './logbook-of-well'
import { registerWithModels } from './model-rows'
import { reckonSettings } from './reckon-settings'
import { entryOf, type WellRow } from './rows'
import { type OwnerContact, wellPage } from './wells'

export type SampleFact = Extract<Fact, { kind: 'sample' }>

/** A lab sheet with everything its page shows. */
export type SamplePage = {
  well: WellRow
  owner: OwnerContact | null
  /** The line as it reads now, with its corrections; it stands no more where it was withdrawn. */
  line: LogLine
  fact: SampleFact
  sample: Sample
  /** Null where the sheet was withdrawn: it counts for nothing. */
  verdict: SampleVerdict | null
  /** What is to be done at this well now. */
  next: readonly NextStep[]
  attachments: AttachmentRow[]
}

/** The sheet written in the entry of that id; null when this well has none for this viewer. */
export function samplePage(db: Db, viewer: Viewer, wellId: string, entryId: string): SamplePage | null {
  const page = wellPage(db, viewer, wellId)
  if (!page) return null
  const line = logbookOf(page.entries)
    .visits.flatMap((visit) => visit.lines)
    .find((each) => each.id === entryId)
  if (line?.fact.kind !== 'sample') return null
  const { settings } = reckonSettings(db.sqlite)
  const { water } = reckon(
    registerWithModels(db.sqlite, page.well, page.duties),
    page.entries.map(entryOf),
    settings,
  )
  return {
    well: page.well,
    owner: page.owner,
    line,
    fact: line.fact,
    sample: sampleOf(line.fact, line.id),
    verdict: water.samples.find((each) => each.sampleId === entryId) ?? null,
    next: water.next,
    attachments: attachmentsOf(db, viewer, entryId),
  }
}
