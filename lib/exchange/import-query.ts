import { isUnitId } from '@/lib/domain/quantity'
import { TABLE_KINDS, type TableKind } from './columns'
import type { Answers, ColumnUse, Mapping } from './mapping'
import type { TableChoice } from './table'

/** What the mapping page's address says: everything chosen so far, so that the page works without script. */
export type ImportQuery = {
  kind: TableKind
  choice: TableChoice
  /** Null until somebody has sent the mapping form: then the suggestion stands. */
  mapping: Mapping | null
  answers: Answers
  createMissingWells: boolean
  updateExisting: boolean
  /** Whether to check the file against the register now. */
  check: boolean
  /** Page of the list of problems, from 1. */
  page: number
}

type Params = Readonly<Record<string, string | string[] | undefined>>

/**
 * Reads the address of the mapping page. Column 3 is said by `f3` (a field, "keep" or "skip"),
 * `u3` (a unit, or "col:4" where column 4 holds it) and `d3` (the order of its dates). What makes
 * no sense is left out, and is then asked.
 */
export function readImportQuery(params: Params): ImportQuery {
  const one = (name: string) => {
    const value = params[name]
    return (Array.isArray(value) ? value[0] : value) ?? ''
  }
  const locale = one('locale')
  const headerLine = Number(one('header'))
  const page = Number(one('page'))
  return {
    kind: TABLE_KINDS.find((kind) => kind === one('kind')) ?? 'wells',
    choice: {
      ...(one('sheet') ? { sheet: one('sheet') } : {}),
      ...(Number.isInteger(headerLine) && headerLine > 0 ? { headerLine } : {}),
    },
    mapping: mappingFrom(params, one),
    answers: { locale: locale === 'en' || locale === 'comma' ? locale : null },
    createMissingWells: one('missing') === 'yes',
    updateExisting: one('update') === 'yes',
    check: one('check') === 'yes',
    page: Number.isInteger(page) && page > 0 ? page : 1,
  }
}

function mappingFrom(params: Params, one: (name: string) => string): Mapping | null {
  const mapping: Record<number, ColumnUse> = {}
  let stated = false
  for (const name of Object.keys(params)) {
    const column = /^f(\d{1,3})$/.exec(name)?.[1]
    if (column === undefined) continue
    stated = true
    mapping[Number(column)] = columnUse(one(name), one(`u${column}`), one(`d${column}`))
  }
  return stated ? mapping : null
}

function columnUse(field: string, unitText: string, orderText: string): ColumnUse {
  if (field === '' || field === 'keep') return 'keep'
  if (field === 'skip') return 'skip'
  const fromColumn = /^col:(\d{1,3})$/.exec(unitText)?.[1]
  const unit =
    fromColumn !== undefined ? { fromColumn: Number(fromColumn) } : isUnitId(unitText) ? unitText : undefined
  const dateOrder = (['ymd', 'dmy', 'mdy'] as const).find((order) => order === orderText)
  return { field: field.slice(0, 200), ...(unit ? { unit } : {}), ...(dateOrder ? { dateOrder } : {}) }
}
