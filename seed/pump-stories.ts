import { toSi } from '@/lib/domain/quantity'
import { addDays } from '@/lib/domain/quantity/day'
import { slug } from '@/lib/domain/upkeep/keys'
import type { DutyFields } from '@/lib/records/duty-fields'
import { typed } from './quantities'
import type { Story } from './valley'
import { type Visit, visit, type WellLife } from './visits'

/** A check valve that lets water back: prime lost twice in the last half year, and a test that says so. */
export function weakValve(life: WellLife): Visit[] {
  const lost = (days: number) =>
    visit(addDays(life.end, days), 'Joss', [
      { kind: 'event', event: 'prime-lost' },
      { kind: 'note', text: 'Pump ran dry of water overnight. Primed through the plug, came at once.' },
    ])
  return [
    lost(-150),
    lost(-38),
    visit(addDays(life.end, -24), 'Joss', [
      {
        kind: 'valve-test',
        before: typed(41, 'psi', 0),
        after: typed(33, 'psi', 0),
        held: typed(10, 'min', 0),
      },
    ]),
  ]
}

/** Duties that wait for a pump that gives less, and for a table that takes the lift. */
export function pumpDuties(story: Story | undefined): DutyFields[] {
  if (story === 'tired-pump') return [duty('Overhaul the pump', 'flow_share', 0.8, '80 %')]
  if (story === 'falling-table') return [duty('Set the pump lower', 'lift_margin', toSi(2, 'ft'), '2 ft')]
  return []
}

function duty(
  name: string,
  condition: DutyFields['condition'],
  conditionLimitSi: number,
  limit: string,
): DutyFields {
  return {
    key: slug(name),
    name,
    consequence: 'supply',
    everyMonths: 60,
    everyRunS: null,
    everyM3: null,
    condition,
    conditionLimitSi,
    lastDoneOn: null,
    typed: { conditionLimitSi: limit },
  }
}
