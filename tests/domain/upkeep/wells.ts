/** Small makers for the upkeep tests. */
import type { Duty, MeterReading, Usage } from '@/lib/domain/upkeep'

export const NO_METERS: Usage = { hours: null, volume: null }

/** A duty without limits, with what is given put in. */
export const duty = (given: Partial<Duty> = {}): Duty => ({
  key: 'change-sediment-cartridge',
  name: 'Change sediment cartridge',
  consequence: 'supply',
  everyMonths: null,
  everyRunS: null,
  everyM3: null,
  condition: null,
  lastDoneOn: null,
  ...given,
})

/** A reading nobody explained, unless said otherwise; its id is its day and value. */
export const read = (on: string, value: number, more: Partial<MeterReading> = {}): MeterReading => ({
  on,
  value,
  id: `${on}/${value}`,
  explained: null,
  ...more,
})
