import { toSi } from '@/lib/domain/quantity'
import { addDays, type Day } from '@/lib/domain/quantity/day'
import { DUTY_LIBRARY, dutyFromTemplate, type NeedsPart } from '@/lib/domain/upkeep/library'
import type { BatchEntry, BatchPlan } from '@/lib/records/batches'
import type { DutyFields } from '@/lib/records/duty-fields'
import { bareWell, type WellFields } from '@/lib/records/well-fields'
import { between, chance, type Dice, diceFrom } from './dice'
import { equipmentFor } from './equipment'
import { type Nature, natureFrom, weatherOf } from './nature'
import { placeOf } from './places'
import { pumpDuties } from './pump-stories'
import { samplesOf } from './samples'
import { tell } from './story'
import { supplyOf } from './supply'
import { testDays, withRecoveryTests } from './tests'
import { type Place, VALLEY } from './valley'
import { commissioned, REPLACE_BRUSHES, type Visit, visit, visitsOf, type WellLife } from './visits'
import { tellWear } from './wear-tales'
import { wishesOf } from './wishes'

/** The fleet's fixed number: change it and every invented well changes. */
const SEED = 20_311

/** Name under which the demo fleet stands in the list of imports, where it can be taken back whole. */
export const DEMO_FILE = 'Fernhollow demo fleet (invented)'

/** The demo fleet as one plan: 64 wells of the made-up Sorrel valley, seven years up to `end`. */
export function demoFleet(end: Day): BatchPlan {
  const plan: BatchPlan = {
    what: 'mixed',
    fileName: DEMO_FILE,
    fileSha256: '',
    source: 'demo',
    updateExisting: false,
    wells: [],
    duties: [],
    entries: [],
  }
  const weather = weatherOf(diceFrom(SEED), end)
  let number = 0
  for (const place of VALLEY) {
    for (const name of place.wells) {
      number += 1
      const dice = diceFrom(SEED + number)
      const story = place.stories?.[name]
      const nature = natureFrom(dice, place.solar)
      const installedOn = addDays(end, -Math.round(story ? 2520 : between(dice, 1100, 2550)))
      const label = `FW-${String(number).padStart(3, '0')}`
      const duties = dutiesOf(place, dice).map((duty) =>
        // The first set of brushes came with the pump.
        duty.key === REPLACE_BRUSHES ? { ...duty, lastDoneOn: installedOn } : duty,
      )
      const rehabilitatedOn = story === 'clogging-then-rehabilitated' ? addDays(end, -430) : null
      const life: WellLife = { nature, place, story, duties, installedOn, end, rehabilitatedOn }
      const fields = wellFields(label, name, place, nature, installedOn, dice)
      plan.wells.push({ row: number, fields })
      for (const duty of [...duties, ...pumpDuties(story)])
        plan.duties.push({ row: number, wellLabel: label, fields: duty })
      const ordinary = [commissioned(life), ...visitsOf(life, dice, weather)]
      const tested = rehabilitatedOn || story === 'clogging' ? testDays(end) : []
      const visits = [
        ...placeVisit(fields, name, story, installedOn, number),
        ...tellWear(name, tell(life, withRecoveryTests(life, ordinary, fields, tested), dice), end),
        ...samplesOf(life, name, dice),
      ]
      visits.forEach((visit, i) => {
        plan.entries.push(...entriesOf(label, visit, i, number))
      })
    }
  }
  return plan
}

/** The day on which it was built, the head was measured: with dice of its own, so that it changes nothing else. */
function placeVisit(
  { latitude, longitude }: WellFields,
  name: string,
  story: WellLife['story'],
  on: Day,
  number: number,
): Visit[] {
  if (latitude === null || longitude === null) return []
  const fact = placeOf(diceFrom(SEED * 7 + number), { latitude, longitude }, name, story)
  return fact ? [visit(on, 'Maren', [fact])] : []
}

function wellFields(
  label: string,
  name: string,
  place: Place,
  nature: Nature,
  installedOn: Day,
  dice: Dice,
): WellFields {
  const inch = (value: number) => ({ si: toSi(value, 'in'), text: `${value} in` })
  const feet = (value: number) => ({
    si: toSi(Number(value.toFixed(1)), 'ft'),
    text: `${value.toFixed(1)} ft`,
  })
  const depth = feet(nature.depthFt)
  const intake = feet(nature.depthFt - 1.5)
  const pit = feet(between(dice, 4, 6))
  const bore = inch(8)
  const altitudeFt = place.area === 'Snow Line' ? 5200 : 3100
  const outside = inch(8.6)
  // One pump house stands up the slope: its lift runs out in the dry months.
  const lift = feet(name === 'Larch 2' ? 13 : 4)
  const tankGal = Math.round(between(dice, 3, 16)) * 100
  const demandGal = Math.round(nature.hoursPerDay * 60 * nature.pumpGpm * 0.8)
  return {
    ...bareWell(label),
    ...equipmentFor(place),
    name,
    area: place.area,
    ownerName: place.owner,
    ownerPhone: place.phone,
    installedOn,
    latitude: 44.1 + between(dice, 0, 0.12),
    longitude: -121.4 + between(dice, 0, 0.16),
    wellDepthM: depth.si,
    intakeDepthM: intake.si,
    casingBoreM: bore.si,
    casingOutsideM: outside.si,
    pitDiameterM: pit.si,
    gravelPorosity: 0.35,
    liftM: lift.si,
    altitudeM: toSi(altitudeFt, 'ft'),
    demandM3PerS: toSi(demandGal, 'gal/d'),
    storageM3: toSi(tankGal, 'gal'),
    closedFrom: place.closed?.from ?? null,
    closedTo: place.closed?.to ?? null,
    closedWhy: place.closed?.why ?? null,
    access: 'Head buried about a foot down.',
    ...wishesOf(name),
    supply: supplyOf(name),
    typed: {
      wellDepthM: depth.text,
      intakeDepthM: intake.text,
      casingBoreM: bore.text,
      casingOutsideM: outside.text,
      pitDiameterM: pit.text,
      liftM: lift.text,
      altitudeM: `${altitudeFt} ft`,
      demandM3PerS: `${demandGal} gal/d`,
      storageM3: `${tankGal} gal`,
    },
  }
}

function dutiesOf(place: Place, dice: Dice): DutyFields[] {
  const has = new Set<NeedsPart>([null, 'cartridge', 'tank'])
  if (place.solar) has.add('brushed-motor')
  if (place.uv) has.add('uv-lamp')
  if (place.closed?.why.startsWith('snow')) has.add('closed-season')
  return DUTY_LIBRARY.filter((template) => has.has(template.needs)).map((template) => {
    const { condition, ...duty } = dutyFromTemplate(template)
    const dirty = template.needs === 'cartridge' && chance(dice, 0.3)
    return {
      ...duty,
      // Brushes are measured at each check here: the length that the pump's model names says when, and no count of hours.
      everyRunS: duty.key === REPLACE_BRUSHES ? null : duty.everyRunS,
      everyMonths: dirty ? 4 : duty.everyMonths,
      condition: condition?.kind ?? null,
      conditionLimitSi: condition?.limitSi ?? null,
      typed: {},
    }
  })
}

function entriesOf(label: string, visit: Visit, index: number, row: number): BatchEntry[] {
  const visitId = `demo ${label} ${index}`
  return visit.facts.map((payload, line) => ({
    wellLabel: label,
    row,
    contentKey: ['demo', visit.on, String(index), String(line)],
    draft: {
      id: '',
      visitId,
      occurredOn: visit.on,
      occurredTime: visit.time,
      byName: visit.by,
      supersedes: null,
      withdraws: null,
      payload,
    },
  }))
}
