/**
 * Velocity heads that the fittings of a suction line take, K in h = K v²/2g.
 * Source  usual handbook values for small screwed fittings, from memory; a maker's own figure wins.
 */
export const FITTINGS: readonly { name: string; k: number; words: RegExp }[] = [
  { name: 'foot valve', k: 2.5, words: /^foot ?valves?(?: with strainer)?$/ },
  { name: 'check valve', k: 2.5, words: /^(?:swing )?check ?valves?$/ },
  { name: 'elbow', k: 0.9, words: /^(?:90s?|(?:90(?: ?°|deg)? )?(?:elbows?|bends?))$/ },
  { name: '45 elbow', k: 0.4, words: /^45(?: ?°|deg)? ?(?:elbows?|bends?)?$/ },
  { name: 'tee', k: 1.8, words: /^tees?(?: branch)?$/ },
  { name: 'straight tee', k: 0.6, words: /^(?:straight|through) tees?$/ },
  { name: 'gate valve', k: 0.2, words: /^(?:gate|ball) ?valves?$/ },
  { name: 'union', k: 0.08, words: /^(?:unions?|couplings?)$/ },
  { name: 'entrance', k: 0.5, words: /^(?:entrances?|open end|strainer)$/ },
]

export type FittingsReading = { kind: 'sum'; kSum: number } | { kind: 'problem'; message: string }

/**
 * The sum of K of a list like "foot valve, check valve, 2 elbows"; commas, semicolons and "and" set its parts off.
 * A part may also give its own figure: "K 4".
 */
export function readFittings(text: string): FittingsReading {
  let kSum = 0
  for (const part of text.toLowerCase().split(/[,;+]|\band\b/)) {
    const words = part.trim()
    if (words === '') continue
    const own = /^k ?=? ?(\d+(?:\.\d+)?)$/.exec(words)
    const counted = /^(\d{1,2}) ?[x×]? (.+)$/.exec(words)
    const known = FITTINGS.find((fitting) => fitting.words.test(words))
    const many = FITTINGS.find((fitting) => fitting.words.test(counted?.[2] ?? ''))
    if (own) kSum += Number(own[1])
    else if (known) kSum += known.k
    else if (many) kSum += many.k * Number(counted?.[1])
    else {
      return {
        kind: 'problem',
        message: `"${words}" is no fitting known here: write ${FITTINGS.map(({ name }) => name).join(', ')}, each with its number, or K and a figure`,
      }
    }
  }
  return { kind: 'sum', kSum }
}

export const PIPE_MATERIALS = ['plastic', 'steel', 'copper'] as const
export type PipeMaterial = (typeof PIPE_MATERIALS)[number]

/**
 * Roughness in m and Hazen–Williams C of a pipe in use.
 * Source  Colebrook's and Hazen–Williams's usual handbook values (drawn tube 0.0015 mm, plastic 0.007 mm, steel with
 *         some rust 0.15 mm), from memory.
 */
export const PIPE_WALLS: Readonly<Record<PipeMaterial, { roughnessM: number; c: number }>> = {
  plastic: { roughnessM: 0.000_007, c: 140 },
  steel: { roughnessM: 0.000_15, c: 110 },
  copper: { roughnessM: 0.000_001_5, c: 140 },
}
