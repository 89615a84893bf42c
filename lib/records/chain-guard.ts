import type Database from 'better-sqlite3'
import { currentFacts, type Entry } from '@/lib/domain/logbook/entries'
import type { EntryDraft } from '@/lib/domain/logbook/kinds'
import { waterStanding } from '@/lib/domain/logbook/water-record'
import type { Chain } from '@/lib/domain/water/chain'
import { entriesOfWell } from './entries'
import { reckonSettings } from './reckon-settings'

/**
 * The first of the drafts that takes a positive back: a correction or withdrawal after which a sample that opened a chain or
 * kept it open is positive no more, or a withdrawal after which a chain that was open no longer is. Null where none does.
 * Drafts of other wells than `wellId` are left out; all are taken as stored in their order.
 */
export function takesPositiveBack(
  sqlite: Database.Database,
  wellId: string,
  drafts: readonly EntryDraft[],
): EntryDraft | null {
  const { settings } = reckonSettings(sqlite)
  const chainsOf = (entries: readonly Entry[]): readonly Chain[] =>
    waterStanding(currentFacts(entries), settings, null).chains
  let entries = entriesOfWell(sqlite, wellId)
  let before: readonly Chain[] | null = null
  for (const draft of drafts) {
    if (draft.wellId !== wellId || entries.some(({ id }) => id === draft.id)) continue
    const after = [...entries, draft]
    if (draft.supersedes !== null || draft.withdraws !== null) {
      before ??= chainsOf(entries)
      const then = chainsOf(after)
      if (losesPositive(before, then) || (draft.withdraws !== null && endsOpen(before, then))) return draft
      before = then
    } else before = null
    entries = after
  }
  return null
}

function losesPositive(before: readonly Chain[], after: readonly Chain[]): boolean {
  const left = new Set(after.flatMap(positivesOf))
  return before.flatMap(positivesOf).some((positive) => !left.has(positive))
}

const positivesOf = ({ key, positives }: Chain): string[] =>
  positives.map(({ sampleId }) => `${key}|${sampleId}`)

function endsOpen(before: readonly Chain[], after: readonly Chain[]): boolean {
  const open = (chains: readonly Chain[]) => chains.filter(({ closed }) => closed === null)
  const left = new Set(open(after).map(({ key }) => key))
  return open(before).some(({ key }) => !left.has(key))
}
