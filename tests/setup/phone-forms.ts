/** Forms of tests and of lab sheets as a phone keeps them. */
import { newId } from '@/lib/records/ids'
import { AT, TODAY } from './batch'

/** s = 3 ft · exp(−t/10 min) above a rest of 6 ft: readings as somebody types them, in rows. */
const SECONDS = [10, 60, 180, 300, 600, 900, 1500]
export const risingRows = (): Record<string, string> =>
  Object.fromEntries(
    SECONDS.flatMap((seconds, i) => [
      [`elapsed${i + 1}`, `${seconds} s`],
      [`level${i + 1}`, (6 + 3 * Math.exp(-seconds / 600)).toFixed(2)],
    ]),
  )

/** A recovery test as its form sends it. */
export const recoveryTyped = (more: Record<string, string> = {}): Record<string, string> => ({
  date: TODAY,
  time: '09:00',
  by: 'Joss',
  static: '6',
  ...risingRows(),
  ...more,
})

/** A lab sheet as its form sends it: two rows, taken and received in time. */
export const sheetTyped = (more: Record<string, string> = {}): Record<string, string> => ({
  intent: 'save',
  by: 'Joss',
  sampleDate: '2026-11-18',
  sampleTime: '09:40',
  receivedDate: '2026-11-18',
  receivedTime: '13:05',
  receivedTemp: '41',
  pointKind: 'Kitchen tap',
  chlorinated: 'no',
  sampleLab: 'Sorrel',
  rows: '3',
  'r1:analyte': 'Total coliform',
  'r1:result': 'Absent',
  'r2:analyte': 'Nitrate',
  'r2:result': '4.2',
  'r2:unit': 'mg/L as N',
  'r3:analyte': 'Lead',
  ...more,
})

/** What the phone knows of a record besides what was typed. */
export const waitingAt = (wellId: string) => {
  const id = newId()
  return { id, user: 'joss', wellId, label: 'A-1', units: 'us' as const, savedAt: AT }
}
