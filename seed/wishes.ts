import type { WellFields } from '@/lib/records/well-fields'

type Wishes = Partial<Pick<WellFields, 'visitFrom' | 'visitUntil' | 'visitDays' | 'gateCode' | 'hazards'>>

/** What some owners of the valley ask of whoever comes, by the name of the well. */
const WISHES: Readonly<Record<string, Wishes>> = {
  'Camp Kitchen': { visitFrom: '10:00', visitUntil: '16:00' },
  'Boat Ramp': { gateCode: '4471' },
  'School Yard': { visitFrom: '15:30' },
  'Cider House': { visitDays: 'Tue, Sat' },
  'Milking Parlour': { hazards: 'two herd dogs, loose until noon' },
  'Kestrel House': { gateCode: '0926', hazards: 'goose' },
  'Lower Paddock': { hazards: 'bull in the paddock: ring first' },
}

export const wishesOf = (name: string): Wishes => WISHES[name] ?? {}
