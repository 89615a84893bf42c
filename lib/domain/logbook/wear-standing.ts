import {
  type BrushCourse,
  brushCourse,
  type CartridgeCourse,
  cartridgeCourse,
  type Forecast,
  forecastBrushes,
  forecastCartridge,
  type LearnedInterval,
  learnedInterval,
  type PrimeStanding,
} from '@/lib/domain/pump'
import type { Day } from '@/lib/domain/quantity/day'
import type { ConditionKind, Duty } from '@/lib/domain/upkeep/types'
import type { YieldStanding } from '@/lib/domain/yield/decline/types'
import { workDone } from './appraise'
import type { CurrentFact } from './entries'
import { type Equipment, NO_EQUIPMENT } from './equipment'
import { type LiftStanding, liftStanding } from './lift-standing'
import { primeOf } from './prime-standing'
import { type PumpStanding, pumpStanding } from './pump-standing'
import type { WellRegister } from './register'
import { begunOn, brushQuestion, cartridgeQuestion } from './wear-questions'

export type CartridgeStanding =
  | {
      kind: 'known'
      dutyId: string
      duty: string
      terminalPa: number
      /** Flow to which the drops are carried, m³/s; null where no flow was ever read with one. */
      referenceFlowM3PerS: number | null
      forecast: Forecast
      course: CartridgeCourse
      /** What this well's own cartridges suggest, beside the fixed interval. */
      interval: LearnedInterval
      /** The duty's own interval, days; null where it has none by months. */
      fixedDays: number | null
    }
  | Unknown

export type BrushStanding =
  | { kind: 'known'; duty: string; forecast: Forecast; course: BrushCourse }
  | (Unknown & { lengths: { on: Day; lengthsM: number[] }[] })

type Unknown = { kind: 'cannot-say'; why: string; enter: string }

/** What wears at a well and what its pump gives, in full. */
export type WearStanding = {
  cartridge: CartridgeStanding
  brushes: BrushStanding
  pump: PumpStanding
  prime: PrimeStanding
  lift: LiftStanding
}

/** What register and logbook say of the parts that wear, the pump and its lift. Pure, like appraise. */
export function wearStanding(
  register: WellRegister,
  facts: readonly CurrentFact[],
  capacity: YieldStanding['capacity'],
): WearStanding {
  const equipment = register.equipment ?? NO_EQUIPMENT
  const done = workDone(facts, register.duties)
  const asked = (kind: ConditionKind) => register.duties.find((duty) => duty.condition?.kind === kind)
  const [cartridge, brushes] = [asked('pressure_drop'), asked('brush_length')]
  return {
    cartridge: cartridgeStanding(cartridge, facts, done, equipment),
    brushes: brushStanding(brushes, facts, done, equipment),
    pump: pumpStanding(facts, equipment, register.installedOn),
    prime: primeOf(facts),
    lift: liftStanding(register, equipment, facts, capacity?.m2PerS ?? null),
  }
}

/** Mean length of a month, days. */
const MONTH_DAYS = 365.25 / 12

function cartridgeStanding(
  duty: (Duty & { id: string }) | undefined,
  facts: readonly CurrentFact[],
  done: ReadonlyMap<string, readonly Day[]>,
  { cartridge: model }: Equipment,
): CartridgeStanding {
  if (!duty?.condition) {
    return {
      kind: 'cannot-say',
      why: 'no duty of this well names the pressure drop at which its cartridge is done',
      enter:
        'give the duty that changes the cartridge a pressure drop as its measured condition, or name the cartridge model on the well',
    }
  }
  const begun = begunOn(duty, done.get(duty.key) ?? [])
  const question = cartridgeQuestion(duty.condition.limitSi, facts, begun, model)
  if (!question) {
    return {
      kind: 'cannot-say',
      why: 'no pressure before and after the cartridge was ever read',
      enter: 'read both gauges, the flow and the volume meter at each visit',
    }
  }
  const fixedDays = duty.everyMonths === null ? null : Math.round(duty.everyMonths * MONTH_DAYS)
  return {
    kind: 'known',
    dutyId: duty.id,
    duty: duty.name,
    terminalPa: question.terminalPa,
    referenceFlowM3PerS: question.readings.some((reading) => reading.flowM3PerS !== null)
      ? question.referenceFlowM3PerS
      : null,
    forecast: forecastCartridge(question),
    course: cartridgeCourse(question),
    interval: learnedInterval(question, undefined, fixedDays),
    fixedDays,
  }
}

function brushStanding(
  duty: Duty | undefined,
  facts: readonly CurrentFact[],
  done: ReadonlyMap<string, readonly Day[]>,
  equipment: Equipment,
): BrushStanding {
  const lengths = facts.flatMap(({ fact, on }) =>
    fact.kind === 'brush-length' ? [{ on, lengthsM: fact.lengths.map((length) => length.si) }] : [],
  )
  if (!duty?.condition) {
    return {
      kind: 'cannot-say',
      why: 'no duty of this well names the least length of its brushes',
      enter:
        'give a duty the least brush length of this pump as its measured condition, or name the pump model on the well',
      lengths,
    }
  }
  const begun = begunOn(duty, done.get(duty.key) ?? [])
  const asked = brushQuestion(duty.condition.limitSi, facts, begun, equipment)
  if (asked === null || asked.kind === 'cannot-say') {
    return {
      kind: 'cannot-say',
      why: asked?.why ?? 'no brush was ever measured',
      enter: 'measure every brush, always in the same order, and read the hour meter with them',
      lengths,
    }
  }
  return {
    kind: 'known',
    duty: duty.name,
    forecast: forecastBrushes(asked.question),
    course: brushCourse(asked.question),
  }
}
