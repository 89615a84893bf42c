import type { Viewer } from '@/lib/access/viewer'
import { BATCH_VERSION, type BatchItem, type ItemAnswer } from '@/lib/exchange/batch/shape'
import { takeBatch } from '@/lib/exchange/batch/take'
import type { Db } from '@/lib/records/db'
import { addDuty } from '@/lib/records/duties'
import { bareWell } from '@/lib/records/well-fields'
import { createWell } from '@/lib/records/wells'
import { installer, technician } from './viewers'

export const TODAY = '2026-11-20'
export const AT = '2026-11-20T12:00:00.000Z'

/** The person whose phone sends batches in tests. */
export const joss: Viewer = { ...technician, userId: 'joss' }

/** A well with one duty; answers its id. */
export async function aWell(db: Db, label = 'A-1', wellDepthM: number | null = null): Promise<string> {
  const well = await createWell(db, installer, { ...bareWell(label), wellDepthM }, AT)
  if (well.kind !== 'stored') throw new Error(well.kind)
  const duty = await addDuty(
    db,
    installer,
    well.id,
    {
      key: 'change-sediment-cartridge',
      name: 'Change sediment cartridge',
      consequence: 'wear',
      everyMonths: 6,
      everyRunS: null,
      everyM3: null,
      condition: null,
      conditionLimitSi: null,
      lastDoneOn: null,
      typed: {},
    },
    AT,
  )
  if (duty.kind !== 'stored') throw new Error(duty.kind)
  return well.id
}

/** A batch as a phone sends it. */
export const batchText = (items: readonly unknown[], more: Record<string, unknown> = {}): string =>
  JSON.stringify({ version: BATCH_VERSION, user: 'joss', device: 'test', items, ...more })

/** Sends items and answers what became of each. Throws where the batch is refused as a whole. */
export async function send(
  db: Db,
  items: readonly unknown[],
  options: { at?: string; today?: string; report?: (error: unknown) => void } = {},
): Promise<ItemAnswer[]> {
  const { at = AT, today = TODAY, report } = options
  const taken = await takeBatch(db, joss, batchText(items), { at, today }, report)
  if (!taken.ok) throw new Error(taken.refusal.wrong)
  return taken.reply.answers
}

/** A visit as a phone keeps it. */
export const visitItem = (
  wellId: string,
  id: string,
  typed: Record<string, string>,
): Extract<BatchItem, { kind: 'visit' }> => ({
  kind: 'visit',
  id,
  wellId,
  units: 'us',
  typed: { date: TODAY, ...typed },
})
