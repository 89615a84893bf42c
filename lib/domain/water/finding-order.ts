/** In which order findings are read: what decides and is worst comes first. */
import { type Finding, RANK } from './verdict-types'

/** 0 is read first. What decides stands before what does not; a value without a limit comes last. */
export function rankOfFinding(finding: Finding): number {
  const worst = finding.verdict === 'no-limit' ? 4 : 3 - RANK[finding.verdict]
  const counts = finding.decides && finding.reason !== 'part-missing'
  return (counts ? 0 : 10) + worst
}
