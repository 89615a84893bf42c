/** The published figures of tests/published/data/water, typed. */
import checks from '../data/water/checks.json'

export type Check = {
  id: string
  topic: string
  inputs: Record<string, unknown>
  expected: { value: number; tolerance: number }
  source: string
  seen: string
}

/** The worked examples of a topic that carry a number and a tolerance. */
export function checksOf(topic: string): Check[] {
  return (
    checks as {
      id: string
      topic: string
      inputs: Record<string, unknown>
      expected: { value: unknown; tolerance: unknown }
      source: string
      seen: string
    }[]
  )
    .filter((row) => row.topic === topic)
    .flatMap((row) => {
      const { value, tolerance } = row.expected
      return typeof value === 'number' && typeof tolerance === 'number'
        ? [{ ...row, expected: { value, tolerance } }]
        : []
    })
}

/** A number among the inputs of a check. */
export function input(check: Check, name: string): number {
  const value = check.inputs[name]
  if (typeof value !== 'number') throw new Error(`${check.id} has no number ${name}`)
  return value
}
