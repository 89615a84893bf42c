/** Finds the analyte a lab sheet names, and asks where the name leaves a doubt. */
import { BACTERIA, GENERAL, RADIOACTIVITY, WITHOUT_LIMITS } from './tables/analytes-general'
import { IONS, METALS, NITROGEN } from './tables/analytes-inorganic'
import { PESTICIDES, PFAS, VOLATILES } from './tables/analytes-organic'
import type { Analyte } from './types'

/** Every analyte the room knows. */
export const ANALYTES: readonly Analyte[] = [
  ...BACTERIA,
  ...NITROGEN,
  ...METALS,
  ...IONS,
  ...GENERAL,
  ...RADIOACTIVITY,
  ...VOLATILES,
  ...PESTICIDES,
  ...PFAS,
  ...WITHOUT_LIMITS,
]

const BY_ID = new Map(ANALYTES.map((analyte) => [analyte.id, analyte]))

/** The analyte of that id, or undefined. */
export function findAnalyte(id: string): Analyte | undefined {
  return BY_ID.get(id)
}

/** The analyte's name in plain words; an id nobody knows is shown as it is. */
export function analyteName(id: string): string {
  return BY_ID.get(id)?.name ?? id
}

/** What a name on a sheet means. `form` is the form the name itself carries ("Nitrate-N" is as N). */
export type AnalyteMatch =
  | { kind: 'match'; id: string; form: string | null }
  | { kind: 'doubtful'; candidates: readonly string[]; ask: string }
  | { kind: 'unknown' }

/** Names that mean different things on different sheets: asked, never guessed. */
const DOUBTFUL: Readonly<Record<string, { candidates: readonly string[]; ask: string }>> = {
  coliform: {
    candidates: ['total-coliform', 'fecal-coliform'],
    ask: 'Does "coliform" mean total coliform or fecal coliform on this sheet?',
  },
  bacteria: {
    candidates: ['total-coliform', 'e-coli', 'heterotrophic-plate-count'],
    ask: 'Which bacteria test is this: total coliform, E. coli or a plate count?',
  },
  nitrogen: {
    candidates: ['nitrate', 'nitrate-nitrite', 'ammonia'],
    ask: 'Which nitrogen is this: nitrate, nitrate + nitrite, or ammonia?',
  },
  ec: {
    candidates: ['e-coli', 'specific-conductance'],
    ask: 'Does "EC" mean E. coli or electrical conductivity on this sheet?',
  },
  radium: {
    candidates: ['radium-226', 'radium-228', 'radium-226-228'],
    ask: 'Which radium is this: 226, 228, or both together?',
  },
  pfas: {
    candidates: ['pfas-sum-20', 'pfas-total'],
    ask: 'Is this the sum of the 20 listed PFAS, or total PFAS?',
  },
  dce: {
    candidates: ['cis-1-2-dichloroethylene', '1-2-dichloroethane'],
    ask: 'Which compound is "DCE" on this sheet?',
  },
  sulfide: {
    candidates: ['hydrogen-sulfide'],
    ask: 'Is this hydrogen sulfide, or sulfide of all kinds? Log it as hydrogen sulfide?',
  },
  dca: { candidates: ['1-2-dichloroethane'], ask: 'Is this 1,2-dichloroethane, or another dichloroethane?' },
  tca: {
    candidates: ['1-1-1-trichloroethane'],
    ask: 'Is this 1,1,1-trichloroethane, or another trichloroethane?',
  },
  plate: { candidates: ['heterotrophic-plate-count'], ask: 'Is this the heterotrophic plate count?' },
  'carbonate alkalinity': {
    candidates: ['alkalinity'],
    ask: 'Is this the total alkalinity, or the carbonate part of it only?',
  },
  'bicarbonate alkalinity': {
    candidates: ['alkalinity', 'bicarbonate'],
    ask: 'Is this given as CaCO3 (log it as alkalinity) or as bicarbonate?',
  },
  'calcium hardness': {
    candidates: ['calcium'],
    ask: 'Calcium hardness is calcium as CaCO3: log it as calcium as CaCO3?',
  },
}
const squash = (text: string): string =>
  text
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[\u0300-\u036f]/g, '')
    .replace(/[₀-₉]/g, (digit) => String('₀₁₂₃₄₅₆₇₈₉'.indexOf(digit)))
    .replace(/[^a-z0-9+]+/g, ' ')
    .replace(/ ?\+ ?/g, '+')
    .trim()

const BY_NAME = new Map<string, string>()
for (const analyte of ANALYTES) {
  for (const name of [
    analyte.name,
    analyte.id,
    ...(analyte.wqx === null ? [] : [analyte.wqx]),
    ...analyte.synonyms,
  ])
    BY_NAME.set(squash(name), analyte.id)
  if (analyte.cas !== null && analyte.cas !== '') BY_NAME.set(squash(analyte.cas), analyte.id)
}

/** What a sheet adds to a name without changing its meaning. */
const ADDED =
  /\b(?:total recoverable|recoverable|dissolved|filtered|unfiltered|as received|by icp(?: ms)?|\(?result\)?|in (?:drinking )?water|drinking water|raw water|(?:by )?colilert|quanti tray|mf|mpn|p a|presence absence|presence|by ic|analysis|test|water|count|bacteria)\b/g

/**
 * The analyte a name on a sheet means. A form in the name ("Nitrate as NO3", "NO3-N", "Ammonia-N") is split off first.
 * Unknown names are answered as unknown, never as the nearest guess.
 */
export function matchAnalyte(name: string): AnalyteMatch {
  const whole = squash(name)
  if (whole === '') return { kind: 'unknown' }
  const exact = BY_NAME.get(whole)
  if (exact !== undefined) return { kind: 'match', id: exact, form: formInName(exact, name) }
  const doubt = DOUBTFUL[whole]
  if (doubt) return { kind: 'doubtful', ...doubt }
  const { bare, form } = splitForm(name)
  const twice = namedTwice(name) ?? totalOf(whole)
  if (twice !== null) return twice
  for (const text of [squash(bare), squash(bare).replace(ADDED, ' ').replace(/ +/g, ' ').trim()]) {
    const id = BY_NAME.get(text)
    if (id !== undefined) return formed(id, form)
    const bareDoubt = DOUBTFUL[text]
    if (bareDoubt) return { kind: 'doubtful', ...bareDoubt }
  }
  return { kind: 'unknown' }
}

/** "Total dissolved solids (TDS)": a name with its short form. Where the two mean different things, it is asked. */
function namedTwice(name: string): AnalyteMatch | null {
  const match = /^(.+?)\s*\(([^()]+)\)\s*$/.exec(name)
  if (!match) return null
  const [long, short] = [matchAnalyte(match[1] ?? ''), matchAnalyte(match[2] ?? '')]
  if (long.kind !== 'match' || short.kind !== 'match') return null
  if (long.id === short.id) return { ...long, form: short.form ?? long.form }
  return {
    kind: 'doubtful',
    candidates: [long.id, short.id],
    ask: `Does "${name.trim()}" mean ${analyteName(long.id)} or ${analyteName(short.id)}?`,
  }
}

/** "Total arsenic", "Sodium, total": all of a metal or an ion, dissolved or not. Other totals have meanings of their own. */
function totalOf(whole: string): AnalyteMatch | null {
  const bare = /^total (.+)$|^(.+) total$/.exec(whole)
  const id = bare ? BY_NAME.get(bare[1] ?? bare[2] ?? '') : undefined
  const family = id === undefined ? undefined : BY_ID.get(id)?.family
  return id !== undefined && (family === 'metal' || family === 'ion')
    ? { kind: 'match', id, form: null }
    : null
}

/** What sheets carry beside tests: nothing is judged by it, and a row of it holds no sample back. */
const ASIDE = new Set([
  'temperature',
  'water temperature',
  'sample temperature',
  'temp',
  'air temperature',
  'corrosivity',
  'langelier index',
  'langelier saturation index',
  'ryznar index',
  'ion balance',
  'sodium adsorption ratio',
  'sar',
])

/** Whether a row is no test of the water's fitness: a temperature, an index reckoned by the laboratory. */
export function isAside(name: string): boolean {
  return ASIDE.has(squash(name))
}

function formed(id: string, mark: string | null): AnalyteMatch {
  const form = mark === null ? null : formOf(id, mark)
  return { kind: 'match', id, form }
}

/** The form id a mark ("N", "nitrogen", "NO3") stands for with this analyte; null where it has no such form. */
export function formOf(id: string, mark: string): string | null {
  const wanted = squash(mark).replace(/[^a-z0-9]/g, '')
  const form = findAnalyte(id)?.forms?.find(
    (row) => row.marks.includes(wanted) || squash(row.form) === wanted,
  )
  return form?.form ?? null
}

const FORM_TAIL =
  /^(.*?)(?:[\s,]*\(\s*(?:as\s+)?(N|NO3|NO2|NH3|NH4|CaCO3|HCO3|SO4|S|nitrogen)\s*[-+]?\s*\)|[\s,_]+as[\s_]+(N|NO3|NO2|NH3|NH4|CaCO3|HCO3|SO4|S|nitrogen|nitrate|nitrite)|\s*-\s*(N)|[\s,]+(N))\s*$/i

function splitForm(name: string): { bare: string; form: string | null } {
  const tidy = name.replace(/[₀-₉]/g, (digit) => String('₀₁₂₃₄₅₆₇₈₉'.indexOf(digit))).trim()
  const match = FORM_TAIL.exec(tidy)
  if (!match || (match[1] ?? '').trim() === '') return { bare: tidy, form: null }
  return { bare: match[1] ?? '', form: match[2] ?? match[3] ?? match[4] ?? match[5] ?? null }
}

/** "Nitrate nitrogen" and "Ammonia nitrogen" say their form in words. */
function formInName(id: string, name: string): string | null {
  if (/\bnitrogen\b/i.test(name)) return formOf(id, 'n')
  const { form } = splitForm(name)
  return form === null ? null : formOf(id, form)
}
