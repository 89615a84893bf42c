/** Reads the letters a laboratory puts beside a result, and says where a letter means different things to different agencies. */
import { CONFLICTS, QUALIFIERS } from './tables/qualifiers'
import type { QualifierClass, QualifierReading } from './types'

/** A laboratory's own key: code → class. What the laboratory says about its own letters wins. */
export type LabKey = Readonly<Record<string, QualifierClass>>

const BY_CODE = new Map(QUALIFIERS.map((row) => [row.code, row]))

/**
 * The codes in a qualifier cell ("J", "H, U", "*"), each with its meaning and class. A letter whose published meanings
 * disagree in class is 'unknown' until the laboratory's key says which; an unlisted code is 'unknown' as well.
 */
export function readQualifiers(text: string, key: LabKey | null): QualifierReading[] {
  return text
    .split(/[\s,;/]+/)
    .map((code) => code.trim())
    .filter((code) => code !== '' && code !== '-')
    .map((code) => readOne(code, key))
}

function readOne(code: string, key: LabKey | null): QualifierReading {
  const upper = code.toUpperCase()
  const own = key?.[code] ?? key?.[upper]
  if (own !== undefined) return { code, meaning: "as the laboratory's key says", class: own, conflict: null }
  const conflict = CONFLICTS[upper]
  if (conflict) {
    const [first, second] = conflict.classes
    return {
      code,
      meaning: conflict.meanings.join('; '),
      class: first !== undefined && first === second ? first : 'unknown',
      conflict: `"${upper}" has more than one published meaning: ${conflict.meanings.join('; ')}.`,
    }
  }
  const row = BY_CODE.get(upper) ?? BY_CODE.get(code)
  if (row) return { code, meaning: row.meaning, class: row.class, conflict: null }
  return { code, meaning: 'not in the published lists', class: 'unknown', conflict: null }
}
