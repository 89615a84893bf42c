/** What importing a table would do, without doing it; and the plan that does it. */
import { demandFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { factSchema } from '@/lib/domain/logbook/kinds'
import { addDays, type Day } from '@/lib/domain/quantity'
import type { BatchPlan } from '@/lib/records/batches'
import type { Db } from '@/lib/records/db'
import { entriesOfWell } from '@/lib/records/entries'
import { type FleetWell, fleetWellOf } from '@/lib/records/fleet-readers'
import { bareWell, keyOf } from '@/lib/records/well-fields'
import { compareEntries } from './against-logbook'
import { type Difference, differences, dutyOn, mergeDuty, mergeWell } from './against-register'
import type { TableKind } from './columns'
import type { Drafts, EntryFact } from './drafts'
import type { Answers, Mapping } from './mapping'
import type { Problem } from './problems'
import { openQuestions, type Question } from './questions'
import { readDrafts } from './read'
import type { Table } from './table'

export type ImportFile = { fileName: string; fileSha256: string; table: Table }
export type ImportOptions = {
  /** Wells that only a duty or a visit names are put in the register, with their label and nothing else. */
  createMissingWells: boolean
  /** Wells and duties in the register take the file's values where they differ. */
  updateExisting: boolean
  /** The day at the outfit: what lies after tomorrow is a slip. */
  today: Day
}

/** `left` differ from the register and stay as they are there, because `updateExisting` is off. */
type Tally = { new: number; changed: number; left: number; unchanged: number }

export type DryRun = {
  wells: Tally
  duties: Tally
  entries: { new: number; unchanged: number }
  differences: Difference[]
  /** Each keeps the file from being stored. */
  problems: Problem[]
  /** To be answered before anything can be read. */
  questions: Question[]
  /** Readings that are stored and not reckoned with; rows that say nothing or say it again. */
  doubts: Problem[]
  notices: Problem[]
  /** Null while there is a question or a problem. */
  plan: BatchPlan | null
}

/** Rows between two breaths, in which other requests are served. */
const BREATH = 500

/**
 * Reads a table under a mapping, holds it against register and logbook, and says what storing it would do.
 * Throws  NotAllowed unless the viewer may import. Writes nothing.
 */
export async function dryRun(
  db: Db,
  viewer: Viewer,
  file: ImportFile,
  kind: TableKind,
  mapping: Mapping,
  answers: Answers,
  options: ImportOptions,
  onProgress: (done: number, total: number) => void = () => undefined,
): Promise<DryRun> {
  demandFleet(viewer, 'import.run')
  const questions = openQuestions(file.table, kind, mapping, answers)
  if (questions.length > 0) return { ...nothing(), questions }
  const drafts = readDrafts(file.table, kind, mapping, answers)
  const comparison = new Comparison(db, viewer, drafts, options, planFor(file, kind, drafts, options))
  const total = drafts.labels.length
  for (const [done, label] of drafts.labels.entries()) {
    comparison.compare(label)
    if (done % BREATH !== 0) continue
    onProgress(done, total)
    await new Promise((resolve) => setImmediate(resolve))
  }
  return comparison.result()
}

function nothing(): DryRun {
  const tally = () => ({ new: 0, changed: 0, left: 0, unchanged: 0 })
  return {
    wells: tally(),
    duties: tally(),
    entries: { new: 0, unchanged: 0 },
    differences: [],
    problems: [],
    questions: [],
    doubts: [],
    notices: [],
    plan: null,
  }
}

function planFor(file: ImportFile, kind: TableKind, drafts: Drafts, options: ImportOptions): BatchPlan {
  const { fileName, fileSha256 } = file
  const mixed = kind === 'entries' || (kind === 'wells' && drafts.duties.length > 0)
  const { updateExisting } = options
  return {
    what: mixed ? 'mixed' : kind,
    fileName,
    fileSha256,
    wells: [],
    duties: [],
    entries: [],
    updateExisting,
  }
}

/** One pass over the wells of a file, each with its duties and entries. */
class Comparison {
  private readonly run = nothing()
  private readonly wells: ReadonlyMap<string, Drafts['wells']>
  private readonly duties: ReadonlyMap<string, Drafts['duties']>
  private readonly entries: ReadonlyMap<string, EntryFact[]>
  private readonly unknownDuties = new Map<string, Problem>()

  constructor(
    private readonly db: Db,
    private readonly viewer: Viewer,
    drafts: Drafts,
    private readonly options: ImportOptions,
    private readonly plan: BatchPlan,
  ) {
    this.run.problems = [...drafts.problems]
    this.run.notices = [...drafts.notices]
    this.wells = byLabel(drafts.wells, ({ fields }) => fields.label)
    this.duties = byLabel(drafts.duties, ({ wellLabel }) => wellLabel)
    this.entries = byLabel(this.wellFormed(drafts.entries), ({ wellLabel }) => wellLabel)
  }

  compare(label: string): void {
    const key = keyOf(label)
    const known = fleetWellOf(this.db, this.viewer, key)
    const stated = this.wells.get(key)?.[0]
    const duties = this.duties.get(key) ?? []
    const entries = this.entries.get(key) ?? []
    const firstRow = duties[0]?.row ?? entries[0]?.row
    if (stated) this.compareWell(known, stated)
    else if (!known && firstRow !== undefined)
      this.missingWell(label, firstRow, duties.length + entries.length)
    for (const duty of duties) this.compareDuty(known, duty)
    this.compareLogbook(known, entries)
    this.noteUnknownDuties(known, entries)
  }

  result(): DryRun {
    const { run } = this
    run.notices.push(...this.unknownDuties.values())
    run.problems.sort((a, b) => (a.row ?? 0) - (b.row ?? 0))
    return { ...run, plan: run.problems.length === 0 ? this.plan : null }
  }

  private compareWell(known: FleetWell | null, { fields, row }: Drafts['wells'][number]): void {
    this.checkDay(fields.installedOn, row, 'installed')
    this.checkDay(fields.retiredOn, row, 'retired')
    if (!known) {
      this.run.wells.new += 1
      this.plan.wells.push({ fields, row })
      return
    }
    const merged = mergeWell(known.fields, fields)
    const found = differences(known.fields, merged, { row, well: known.fields.label })
    if (this.tally(this.run.wells, found)) this.plan.wells.push({ fields: merged, row })
  }

  private compareDuty(known: FleetWell | null, draft: Drafts['duties'][number]): void {
    const { fields, row, wellLabel } = draft
    this.checkDay(fields.lastDoneOn, row, 'last_done')
    const present = dutyOn(known, fields.key)
    if (!present) {
      this.run.duties.new += 1
      this.plan.duties.push({ wellLabel, fields, row })
      return
    }
    const merged = mergeDuty(present, draft)
    const found = differences(present, merged, { row, well: wellLabel })
    if (this.tally(this.run.duties, found)) this.plan.duties.push({ wellLabel, fields: merged, row })
  }

  /** Counts a row that is in the register already; true where the file's values are to be taken. */
  private tally(tally: Tally, found: readonly Difference[]): boolean {
    this.run.differences.push(...found)
    if (found.length === 0) tally.unchanged += 1
    else if (this.options.updateExisting) tally.changed += 1
    else tally.left += 1
    return found.length > 0 && this.options.updateExisting
  }

  private compareLogbook(known: FleetWell | null, entries: readonly EntryFact[]): void {
    if (entries.length === 0) return
    const logbook = known ? entriesOfWell(this.db.sqlite, known.id) : []
    const { fresh, unchanged, repeats, doubts } = compareEntries(entries, logbook)
    this.run.entries.new += fresh.length
    this.run.entries.unchanged += unchanged
    this.run.notices.push(...repeats)
    this.run.doubts.push(...doubts)
    for (const { entry, contentKey } of fresh) this.plan.entries.push(batchEntry(entry, contentKey))
  }

  private missingWell(label: string, row: number, lines: number): void {
    if (this.options.createMissingWells) {
      this.run.wells.new += 1
      this.plan.wells.push({ fields: bareWell(label), row })
      return
    }
    const many = lines > 1 ? ` (${lines} lines name it)` : ''
    const message = `There is no well "${label}" in the register${many}. Import the wells first, or let missing wells be added.`
    this.run.problems.push({ row, column: 'well', value: label, message })
  }

  /** A duty done that is none of the well's duties counts for nothing, and is probably only spelt otherwise. */
  private noteUnknownDuties(known: FleetWell | null, entries: readonly EntryFact[]): void {
    if (!known) return
    for (const { fact, row } of entries) {
      if (fact.kind !== 'service-done') continue
      fact.duties.forEach((key, i) => {
        if (dutyOn(known, key) || this.unknownDuties.has(key)) return
        const value = fact.names[i] ?? key
        const message = `"${value}" is no duty of ${known.fields.label}: it is kept in the logbook and moves no due date.`
        this.unknownDuties.set(key, { row, column: 'done', value, message })
      })
    }
  }

  private wellFormed(entries: readonly EntryFact[]): EntryFact[] {
    return entries.flatMap((entry) => {
      this.checkDay(entry.on, entry.row, 'date')
      const parsed = factSchema.safeParse(entry.fact)
      if (parsed.success) return [{ ...entry, fact: parsed.data }]
      for (const { path, message } of parsed.error.issues) {
        this.run.problems.push({ row: entry.row, column: path.join('.'), value: '', message })
      }
      return []
    })
  }

  private checkDay(day: Day | null, row: number, column: string): void {
    if (day === null || day <= addDays(this.options.today, 1)) return
    const message = `${day} is in the future.`
    // A visit is several entries of one row.
    const again = this.run.problems.some((problem) => problem.row === row && problem.message === message)
    if (!again) this.run.problems.push({ row, column, value: day, message })
  }
}

function batchEntry(entry: EntryFact, contentKey: string[]): BatchPlan['entries'][number] {
  const { wellLabel, row, on, time, by, fact } = entry
  return {
    wellLabel,
    row,
    contentKey,
    draft: {
      // Both ids are made of what the entry says when it is stored.
      id: '',
      visitId: JSON.stringify([keyOf(wellLabel), on, time, by]),
      occurredOn: on,
      occurredTime: time,
      byName: by,
      supersedes: null,
      withdraws: null,
      payload: fact,
    },
  }
}

function byLabel<T>(items: readonly T[], labelOf: (item: T) => string): Map<string, T[]> {
  const map = new Map<string, T[]>()
  for (const item of items) {
    const key = keyOf(labelOf(item))
    const list = map.get(key)
    if (list) list.push(item)
    else map.set(key, [item])
  }
  return map
}
