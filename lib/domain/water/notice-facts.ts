/** What a notice must say of a well, taken from its standing: what was found, at what level, by which sample, and when it can end. */
import { addDays, type Day } from '@/lib/domain/quantity/day'
import type { WaterStanding } from './appraise'
import { CHAIN_RULES, type Chain } from './chain'
import { chainName } from './chain-marks'
import type { NoticeCause, NoticeFacts } from './notice'
import type { Finding } from './verdict-types'

const BACTERIA = ['total-coliform', 'e-coli', 'fecal-coliform', 'enterococci']
const NITROGEN = ['nitrate', 'nitrite', 'nitrate-nitrite', 'nitrate-nitrite-ratio']

/** The chains that a notice must cover together: all that are open, for a boil notice must not stand where nitrate is found too. */
export function openChainsOf(standing: Pick<WaterStanding, 'chains'>): Chain[] {
  return standing.chains.filter((chain) => chain.closed === null)
}

/** The facts of a notice about the chains given (at least one), without the well's name and the contact. */
export function noticeFactsOf(
  standing: Pick<WaterStanding, 'samples'>,
  chains: readonly Chain[],
): Pick<NoticeFacts, 'causes' | 'sampledOn' | 'earliestEnd' | 'clearNeeded'> {
  const ends = chains.map(earliestEnd)
  const days = ends.flatMap((day) => day ?? []).sort()
  return {
    causes: chains.map((chain) => causeOf(standing, chain)),
    sampledOn: chains.map(lastPositive).sort().at(-1) ?? '',
    // One chain without a date leaves the whole without one.
    earliestEnd: days.length === ends.length ? (days.at(-1) ?? null) : null,
    clearNeeded: Math.max(1, ...chains.map((chain) => chain.clearNeeded - chain.clear.length)),
  }
}

/** The first day on which the last clear sample that is still needed can be taken; null where something must be done first. */
export function earliestEnd(chain: Chain): Day | null {
  if (chain.earliestResample === null) return null
  const more = Math.max(0, chain.clearNeeded - chain.clear.length - 1)
  return addDays(chain.earliestResample, more * CHAIN_RULES.clearApartDays)
}

const lastPositive = (chain: Chain): Day => chain.positives.at(-1)?.on ?? chain.opened.on

/** What the last positive sample of a chain found. */
function causeOf(standing: Pick<WaterStanding, 'samples'>, chain: Chain): NoticeCause {
  const sampleId = chain.positives.at(-1)?.sampleId ?? chain.opened.sampleId
  const findings = standing.samples.find((each) => each.sampleId === sampleId)?.findings ?? []
  const own = findings.filter((finding) => belongs(finding, chain.key) && levelOf(finding) !== '')
  const above = own.filter((finding) =>
    chain.key === 'bacteria' ? isFound(finding) : finding.verdict === 'exceeds',
  )
  const name = chainName(chain.key)
  const levels = [
    ...new Set(
      above.map((finding) =>
        finding.name === name ? levelOf(finding) : `${finding.name} ${levelOf(finding)}`,
      ),
    ),
  ]
  const limit = above.find((finding) => finding.decides && finding.limit !== null)?.limit
  return {
    chain: chain.key,
    name,
    level: levels.join(', '),
    limit:
      chain.key === 'bacteria'
        ? 'none in 100 mL'
        : limit
          ? `${limit.max} ${limit.unit}`.trim()
          : 'not known here',
  }
}

/** The level in the form of its limit ("12.4 mg/L as N"); a count or a word as the sheet has it; '' for a sum without one. */
function levelOf({ measured, limit }: Finding): string {
  if (measured === null || measured.typed === '') return ''
  const exact = measured.high === measured.low && limit !== null && limit.unit === measured.unit
  return exact ? `${measured.low} ${measured.unit}` : measured.typed
}

function belongs(finding: Finding, key: string): boolean {
  if (key === 'bacteria') return BACTERIA.includes(finding.analyte)
  return key === 'nitrate' ? NITROGEN.includes(finding.analyte) : finding.analyte === key
}

/** Bacteria are allowed in no number, whatever a scheme says: found is anything that is not nought. */
const isFound = ({ verdict, measured }: Finding): boolean =>
  verdict === 'exceeds' || (measured !== null && measured.low > 0)
