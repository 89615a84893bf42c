/** Imports that are running, with their progress. Kept in memory: a commit is all or nothing, so none outlives a stop. */
import { randomUUID } from 'node:crypto'
import type { Viewer } from '@/lib/access/viewer'
import { type BatchOutcome, commitBatch } from '@/lib/records/batches'
import type { Db } from '@/lib/records/db'
import type { TableKind } from './columns'
import type { Answers, Mapping } from './mapping'
import { type DryRun, dryRun, type ImportOptions } from './plan'
import { readTable, type TableChoice } from './table'
import { dropUpload, openUpload } from './uploads'

export type ImportRequest = {
  uploadId: string
  kind: TableKind
  choice: TableChoice
  mapping: Mapping
  answers: Answers
  options: ImportOptions
}

export type ImportOutcome =
  | BatchOutcome
  /** The file has questions or problems that its dry run showed; nothing was stored. */
  | { kind: 'not-ready'; run: DryRun }
  | { kind: 'unreadable'; message: string }
  | { kind: 'failed'; message: string }

export type ImportJob = {
  id: string
  phase: 'reading' | 'checking' | 'storing' | 'ended'
  /** Steps done of the present phase; `total` is 0 until it is known. */
  done: number
  total: number
  /** Null until the job has ended. */
  outcome: ImportOutcome | null
}

type Running = { job: ImportJob; userId: string | null; ended: Promise<ImportOutcome> }

declare global {
  // Next loads a module once for each kind of entry point; the process must still know all its jobs.
  var wellroundImports: Map<string, Running> | undefined
}

const JOBS_KEPT = 50

/** Starts an import and answers its job at once. Its upload is removed when it has been stored. */
export function startImport(
  db: Db,
  viewer: Viewer,
  dataFolder: string,
  request: ImportRequest,
  at: string,
): ImportJob {
  const job: ImportJob = { id: randomUUID(), phase: 'reading', done: 0, total: 0, outcome: null }
  const ended = run(db, viewer, dataFolder, request, at, job)
    // A fault of ours, not of the file: told on screen, and in the log with its cause.
    .catch((error: unknown): ImportOutcome => {
      console.error('import failed', error)
      return {
        kind: 'failed',
        message: 'The import stopped because of a fault in the program. Nothing was stored.',
      }
    })
    .then((outcome) => {
      Object.assign(job, { phase: 'ended', outcome })
      return outcome
    })
  remember({ job, userId: viewer.userId, ended })
  return job
}

/** A job as it stands; null where there is none of this viewer's. */
export function importJob(viewer: Viewer, id: string): ImportJob | null {
  const running = jobs().get(id)
  return running && running.userId === viewer.userId ? { ...running.job } : null
}

/** How a job ended, once it has; null where there is none of this viewer's. */
export function importEnded(viewer: Viewer, id: string): Promise<ImportOutcome> | null {
  const running = jobs().get(id)
  return running && running.userId === viewer.userId ? running.ended : null
}

async function run(
  db: Db,
  viewer: Viewer,
  dataFolder: string,
  request: ImportRequest,
  at: string,
  job: ImportJob,
): Promise<ImportOutcome> {
  const opened = await openUpload(dataFolder, viewer, request.uploadId)
  if (!opened) return { kind: 'unreadable', message: 'The file is no longer here. Choose it again.' }
  const { upload, bytes } = opened
  const reading = await readTable(bytes, request.choice)
  if (reading.kind === 'refused') return { kind: 'unreadable', message: reading.message }
  if (reading.kind === 'choose-sheet')
    return { kind: 'unreadable', message: 'Choose one of the sheets first.' }
  const file = { fileName: upload.fileName, fileSha256: upload.sha256, table: reading.table }
  const { kind, mapping, answers, options } = request
  const checked = await dryRun(db, viewer, file, kind, mapping, answers, options, progressOf(job, 'checking'))
  if (!checked.plan) return { kind: 'not-ready', run: checked }
  const outcome = await commitBatch(db, viewer, checked.plan, at, progressOf(job, 'storing'))
  if (outcome.kind === 'done') await dropUpload(dataFolder, upload.id)
  return outcome
}

function progressOf(job: ImportJob, phase: 'checking' | 'storing'): (done: number, total: number) => void {
  return (done, total) => {
    Object.assign(job, { phase, done, total })
  }
}

function jobs(): Map<string, Running> {
  globalThis.wellroundImports ??= new Map()
  return globalThis.wellroundImports
}

/** The oldest ended jobs make room. */
function remember(running: Running): void {
  const known = jobs()
  known.set(running.job.id, running)
  for (const [id, { job }] of known) {
    if (known.size <= JOBS_KEPT) return
    if (job.phase === 'ended') known.delete(id)
  }
}
