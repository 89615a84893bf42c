import type { Dice } from './dice'
import { throwsOf } from './noise'
import type { TrueCause } from './score'
import type { FleetSettings } from './settings'

/** What goes wrong at a well, in years from its first day. */
export type Course = {
  cause: TrueCause
  onsetAt: number
  rehabAt: number | null
  replacedAt: number | null
  capacityLeft: (t: number) => number
  pumpLeft: (t: number) => number
  tableFallM: (t: number) => number
}

/** The true state of a well: `t` in years from its first day, `yearPart` 0 to 1 from New Year. */
export type Ground = {
  depthM: number
  intakeM: number
  staticM: (t: number, yearPart: number) => number
  /** What is drawn down and given on a day at an hour of pumping and a static level; noise of the day in. */
  pumped: (
    t: number,
    yearPart: number,
    staticM: number,
    hours: number,
  ) => { drawdownM: number; flowM3PerS: number }
  /** What the well can give at the low of its season with the intake covered. */
  carriedM3PerS: (t: number) => number
}

const INTAKE_COVER_M = 0.3

/** A well in the ground, drawn from the settings. */
export function drawGround(settings: FleetSettings, dice: Dice, course: Course): Ground {
  const swingM = dice.uniform(...settings.swingM)
  const meanStaticM = dice.uniform(1.2, 4) + swingM / 2
  const thicknessM = dice.uniform(3.5, 8) + swingM / 2
  const depthM = meanStaticM + thicknessM
  const intakeM = depthM - 0.5
  const exponent = dice.uniform(...settings.exponent)
  const newDrawdownM = dice.uniform(0.5, 1.9)
  const newFlowM3PerS = Math.exp(dice.uniform(Math.log(8), Math.log(40))) / 60_000
  const sagPerM = dice.uniform(0, 0.04)
  const peak = dice.uniform(0.6, 0.85)
  const stiffness = dice.uniform(...settings.capacitySeason)
  const turbulent = dice.uniform(...settings.turbulentPart)
  const weather = weatherOf(settings, dice)
  const noise = throwsOf(settings, dice)
  const thick = (staticM: number) => Math.max(0.3, (depthM - Math.max(0.2, staticM)) / thicknessM) ** exponent
  const newCapacity = newFlowM3PerS / newDrawdownM
  return {
    depthM,
    intakeM,
    staticM: (t, yearPart) => {
      const season = (swingM / 2) * Math.cos(2 * Math.PI * (yearPart - peak))
      return Math.max(0.2, Math.min(meanStaticM + season + weather(t) + course.tableFallM(t), depthM - 1.5))
    },
    pumped: (t, yearPart, staticM, hours) => {
      const capacity =
        newCapacity *
        thick(staticM) *
        course.capacityLeft(t) *
        (1 + stiffness * Math.cos(2 * Math.PI * (yearPart - 0.6))) *
        (1 + settings.durationEffect * Math.log(hours)) *
        Math.exp(settings.capacityNoise * noise())
      const raw =
        newFlowM3PerS *
        course.pumpLeft(t) *
        Math.exp(settings.flowNoise * Math.sqrt(settings.flowNoiseReal) * noise())
      const drawdownOf = (flow: number) => {
        const bent = 1 - turbulent + (turbulent * flow) / newFlowM3PerS
        return Math.min((flow / capacity) * bent, 0.9 * (depthM - staticM))
      }
      const sag = Math.max(0.5, 1 - sagPerM * (staticM - meanStaticM + drawdownOf(raw) - newDrawdownM))
      const flowM3PerS = raw * sag
      return { flowM3PerS, drawdownM: drawdownOf(flowM3PerS) }
    },
    carriedM3PerS: (t) => {
      const lowM = meanStaticM + swingM / 2 + course.tableFallM(t)
      return newCapacity * thick(lowM) * course.capacityLeft(t) * Math.max(0, intakeM - INTAKE_COVER_M - lowM)
    },
  }
}

/** A level that wanders: first-order memory sampled by the month, with straight lines between. */
function weatherOf(settings: FleetSettings, dice: Dice): (t: number) => number {
  const sdM = dice.uniform(...settings.weatherSdM)
  const memory = Math.exp(-1 / 12 / dice.uniform(...settings.weatherMemoryYears))
  const months: number[] = [sdM * dice.normal()]
  for (let i = 1; i < 12 * 40; i++) {
    months.push(memory * (months[i - 1] ?? 0) + sdM * Math.sqrt(1 - memory * memory) * dice.normal())
  }
  return (t) => {
    const month = Math.max(0, t * 12)
    const i = Math.floor(month)
    const part = month - i
    return (months[i] ?? 0) * (1 - part) + (months[i + 1] ?? 0) * part
  }
}
