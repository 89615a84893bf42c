import { type SupplyFacts, supplyText } from '@/lib/domain/logbook/supply-facts'
import { toSi, type UnitId } from '@/lib/domain/quantity'

const typed = (value: number, unit: UnitId) => ({ si: toSi(value, unit), typed: `${value} ${unit}` })
const ALL = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]
const STATED = '2025-04-02'

/** An invented table of the valley's sun, kWh/m² a day on the level. */
const SUN: SupplyFacts['sun'] = {
  kind: 'energy',
  values: [1.6, 2.5, 3.7, 5, 6.1, 6.8, 7.3, 6.3, 4.9, 3.2, 1.8, 1.4],
  source: 'invented for this demo',
}
/** The few wells whose owner told what drives the pump and what is asked of it. */
const TOLD: Readonly<Record<string, SupplyFacts>> = {
  // Panels and tank carry house and stock, and run short when the garden is watered.
  'Quince Row': {
    drive: 'sun',
    panel: typed(160, 'W'),
    tiltDeg: 35,
    azimuthDeg: 10,
    sun: SUN,
    pumpPlace: 'ground',
    uses: [
      { name: 'house', daily: typed(180, 'gal/d'), months: ALL },
      { name: 'stock', daily: typed(120, 'gal/d'), months: [4, 5, 6, 7, 8, 9, 10] },
      { name: 'garden', daily: typed(1050, 'gal/d'), months: [8] },
    ],
    setOn: STATED,
  },
  'Packing Shed': {
    drive: 'mains',
    uses: [{ name: 'house', daily: typed(250, 'gal/d'), months: ALL }],
    setOn: STATED,
  },
  // Nobody wrote down how much is asked; the demand of the register counts.
  'Nursery Rows': { drive: 'sun', panel: typed(200, 'W'), uses: [], setOn: STATED },
}

/** What is known of the supply from the well of that name, as it is stored; null for most. */
export function supplyOf(name: string): string | null {
  const facts = TOLD[name]
  return facts ? supplyText(facts) : null
}
