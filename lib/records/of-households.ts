/**
 * The part of WHERE that keeps a column to some households, for queries of who sees their own wells. One household, as
 * almost everybody has, stays an equality, so that lists are read off an index in their order.
 */
export function ofHouseholds(column: string, ownerIds: readonly string[]): { sql: string; values: string[] } {
  if (ownerIds.length === 1) return { sql: `${column} = ?`, values: [...ownerIds] }
  return { sql: `${column} IN (${ownerIds.map(() => '?').join(',')})`, values: [...ownerIds] }
}
