import { readFileSync } from 'node:fs'
import { parse } from 'csv-parse/sync'
import { expect } from 'vitest'
import { z } from 'zod'

const numbers = z.array(z.number())
const Expected = z.object({
  value: z.union([z.number(), numbers]),
  tol: z.number(),
  relative: z.boolean(),
})
const Case = z.object({
  id: z.string(),
  data: z.record(z.string(), z.union([numbers, z.string()])).optional(),
  expected: z.record(z.string(), z.union([Expected, z.object({ value: z.string() })])),
  printed_in_source: z.record(z.string(), z.string()).optional(),
  source: z.string(),
})
type Case = z.infer<typeof Case>

const folder = new URL('../data/trend/', import.meta.url)
const read = (name: string) => readFileSync(new URL(name, folder), 'utf8')
const CASES = z.array(Case).parse(JSON.parse(read('cases.json')))

/** One published case by its id, with its lists of data. */
export function trendCase(id: string) {
  const found = CASES.find((one) => one.id === id)
  if (!found) throw new Error(`no case ${id}`)
  return {
    ...found,
    list: (name: string) => listOf(found, name),
    /** Holds computed values against the expected ones of the same name, each to its own tolerance. */
    holds: (computed: Record<string, number | readonly number[] | undefined>) => holds(found, computed),
  }
}

/** Rows of a data file of the cases; an empty cell stays an empty text. */
export function rowsOf(file: string): Record<string, string>[] {
  return z
    .array(z.record(z.string(), z.string()))
    .parse(parse(read(file), { columns: true, skip_empty_lines: true }))
}

/** A cell that must hold a number. */
export function numberIn(row: Record<string, string>, column: string): number {
  const text = row[column]
  if (text === undefined || text.trim() === '') throw new Error(`no ${column} in ${JSON.stringify(row)}`)
  return z.number().parse(Number(text))
}

/** Parsed JSON of a data file. */
export const jsonOf = (file: string): unknown => JSON.parse(read(file))

function listOf({ id, data }: Case, name: string): number[] {
  const list = data?.[name]
  if (list === undefined) throw new Error(`case ${id} has no ${name}`)
  if (typeof list !== 'string') return list
  const [from, to] = list.split('..').map(Number)
  if (from === undefined || to === undefined) throw new Error(`${list} is no range`)
  return Array.from({ length: to - from + 1 }, (_, i) => from + i)
}

function holds({ id, expected }: Case, computed: Record<string, number | readonly number[] | undefined>) {
  for (const [name, actual] of Object.entries(computed)) {
    const wanted = Expected.parse(expected[name], { error: () => `case ${id} expects no ${name}` })
    const values = [wanted.value].flat()
    const actuals = [actual].flat()
    expect(actuals.length, `${id} ${name}`).toBe(values.length)
    values.forEach((value, i) => {
      const got = actuals[i] ?? Number.NaN
      const room = wanted.relative ? wanted.tol * Math.abs(value) + 1e-12 : wanted.tol
      expect(Math.abs(got - value), `${id} ${name}: ${got} for ${value}`).toBeLessThanOrEqual(room)
    })
  }
}
