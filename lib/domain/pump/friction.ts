import { GRAVITY_M_PER_S2 } from './water-physics'

export type Pipe = { lengthM: number; insideM: number }

/**
 * Friction head in m of a full pipe by Hazen–Williams: h = 10.67 L Q^1.852 / (C^1.852 d^4.8704).
 *
 * The number to read off quickly; at house flows in smooth plastic C = 150 is 15 to 20 % too hopeful, so darcyHead is
 * the check.
 * Units   m³/s, m; C without unit (150 new plastic, 130 old plastic, 100 rough iron).
 * Source  the metric form of the equation behind handbook tables of pipe friction.
 * Throws  RangeError for sizes or C not above zero, or a negative flow.
 */
export function hazenWilliamsHeadM(pipe: Pipe, flowM3PerS: number, c: number): number {
  requirePipe(pipe, flowM3PerS)
  if (!(c > 0)) throw new RangeError(`Hazen–Williams C ${c} is not above zero`)
  return (10.67 * pipe.lengthM * flowM3PerS ** 1.852) / (c ** 1.852 * pipe.insideM ** 4.8704)
}

export type DarcyLoss = {
  headM: number
  velocityMPerS: number
  reynolds: number
  factor: number
  /** 'unsettled' between Reynolds 2,000 and 4,000, where the larger of the two laws is taken. */
  regime: 'still' | 'laminar' | 'unsettled' | 'turbulent'
}

/**
 * Friction head in m by Darcy–Weisbach, h = f (L/d) v²/2g.
 *
 * f       64/Re when laminar; Colebrook's equation (1939) when turbulent, solved from the start of Swamee & Jain (1976).
 * Units   m, m³/s; roughness in m (0.0000015 for drawn plastic), kinematic viscosity in m²/s.
 * Throws  RangeError for sizes not above zero or negative flow, roughness or viscosity.
 */
export function darcyHead(
  pipe: Pipe,
  flowM3PerS: number,
  roughnessM: number,
  kinematicViscosityM2PerS: number,
): DarcyLoss {
  requirePipe(pipe, flowM3PerS)
  if (!(roughnessM >= 0) || !(kinematicViscosityM2PerS > 0)) {
    throw new RangeError(`roughness ${roughnessM} m, viscosity ${kinematicViscosityM2PerS} m²/s`)
  }
  const velocityMPerS = velocity(flowM3PerS, pipe.insideM)
  const reynolds = (velocityMPerS * pipe.insideM) / kinematicViscosityM2PerS
  if (reynolds === 0) return { headM: 0, velocityMPerS, reynolds, factor: 0, regime: 'still' }
  const { factor, regime } = frictionFactor(reynolds, roughnessM / pipe.insideM)
  const headM = (factor * pipe.lengthM * velocityMPerS ** 2) / (2 * GRAVITY_M_PER_S2 * pipe.insideM)
  return { headM, velocityMPerS, reynolds, factor, regime }
}

/** Head in m lost in fittings: the sum of their K times v²/2g, with v in the pipe of the given inside diameter. */
export function fittingsHeadM(kSum: number, flowM3PerS: number, insideM: number): number {
  requirePipe({ lengthM: 0, insideM }, flowM3PerS)
  if (!(kSum >= 0)) throw new RangeError(`sum of K ${kSum} is negative`)
  return (kSum * velocity(flowM3PerS, insideM) ** 2) / (2 * GRAVITY_M_PER_S2)
}

const velocity = (flowM3PerS: number, insideM: number): number => flowM3PerS / ((Math.PI * insideM ** 2) / 4)

function frictionFactor(
  reynolds: number,
  relativeRoughness: number,
): { factor: number; regime: DarcyLoss['regime'] } {
  const laminar = 64 / reynolds
  if (reynolds < 2000) return { factor: laminar, regime: 'laminar' }
  const turbulent = colebrook(reynolds, relativeRoughness)
  if (reynolds < 4000) return { factor: Math.max(laminar, turbulent), regime: 'unsettled' }
  return { factor: turbulent, regime: 'turbulent' }
}

/** 1/√f = −2 log10(ε/3.7 + 2.51/(Re √f)): a fixed point that settles in a few rounds from Swamee and Jain's start. */
function colebrook(reynolds: number, relativeRoughness: number): number {
  let root = -2 * Math.log10(relativeRoughness / 3.7 + 5.74 / reynolds ** 0.9)
  for (let round = 0; round < 30; round++) {
    const next = -2 * Math.log10(relativeRoughness / 3.7 + (2.51 * root) / reynolds)
    if (Math.abs(next - root) < 1e-12) break
    root = next
  }
  return 1 / root ** 2
}

function requirePipe(pipe: Pipe, flowM3PerS: number): void {
  if (!(pipe.insideM > 0) || !(pipe.lengthM >= 0)) {
    throw new RangeError(`pipe of ${pipe.lengthM} m, ${pipe.insideM} m inside`)
  }
  if (!(flowM3PerS >= 0)) throw new RangeError(`flow ${flowM3PerS} m³/s is negative`)
}
