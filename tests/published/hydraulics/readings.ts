import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parse } from 'csv-parse/sync'
import { z } from 'zod'

const rows = z.array(z.array(z.coerce.number()))

/** The two columns of a file in tests/published/data/hydraulics, first one times `toSeconds`. */
export function readings(file: string, toSeconds: number): { elapsedS: number; metres: number }[] {
  const path = fileURLToPath(new URL(`../data/hydraulics/${file}.csv`, import.meta.url))
  return rows.parse(parse(readFileSync(path, 'utf8'), { from_line: 2 })).map(([time, value]) => {
    if (time === undefined || value === undefined) throw new Error(`${file}: a row without two numbers`)
    return { elapsedS: time * toSeconds, metres: value }
  })
}

export const DAY_S = 86_400

/** The answer of an expected kind, or a failure that shows what came instead. */
export function must<A extends { kind: string }, K extends A['kind']>(
  answer: A,
  kind: K,
): Extract<A, { kind: K }> {
  if (!isKind(answer, kind)) throw new Error(`expected ${kind}, got ${JSON.stringify(answer)}`)
  return answer
}

function isKind<A extends { kind: string }, K extends A['kind']>(
  answer: A,
  kind: K,
): answer is Extract<A, { kind: K }> {
  return answer.kind === kind
}
