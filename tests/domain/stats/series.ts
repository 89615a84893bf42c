import { seededStream } from '@/lib/domain/stats'

/** Plain-definition helpers and seeded series, for tests to hold the fast code against. */
export function naiveS(x: readonly number[], y: readonly number[]): number {
  let s = 0
  x.forEach((xi, i) => {
    for (let j = i + 1; j < x.length; j++) {
      s += Math.sign((x[j] ?? 0) - xi) * Math.sign((y[j] ?? 0) - (y[i] ?? 0))
    }
  })
  return s
}

export function naiveSlopes(time: readonly number[], value: readonly number[]): number[] {
  const order = time.map((_, i) => i).sort((a, b) => (time[a] ?? 0) - (time[b] ?? 0))
  const slopes: number[] = []
  order.forEach((a, k) => {
    for (const b of order.slice(k + 1)) {
      const dt = (time[b] ?? 0) - (time[a] ?? 0)
      if (dt > 0) slopes.push(((value[b] ?? 0) - (value[a] ?? 0)) / dt)
    }
  })
  return slopes.sort((a, b) => a - b)
}

/** Roughly normal noise (sum of twelve uniforms) from a seed. */
export function noise(seed: number, n: number): number[] {
  const dice = seededStream(seed)
  return Array.from({ length: n }, () => {
    let sum = -6
    for (let k = 0; k < 12; k++) sum += dice()
    return sum
  })
}
