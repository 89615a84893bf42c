import { z } from 'zod'
import type { Amount } from './fields'

const AXES = {
  latitude: { max: 90, plus: 'N', minus: 'S', example: '44.26012 or 44° 15′ 36″ N' },
  longitude: { max: 180, plus: 'E', minus: 'W', example: '-72.57543 or 72° 34′ 32″ W' },
} as const

const PATTERN =
  /^([+-]?)(\d{1,3}(?:\.\d+)?)(?:°| ?deg|(?= ))? ?(?:(\d{1,2}(?:\.\d+)?)(?:'| ?min|(?= )|$) ?(?:(\d{1,2}(?:\.\d+)?)(?:"|''| ?sec|$)?)?)? ?([NSEW]?)$/i

/**
 * Decimal degrees (north and east positive) from a typed coordinate: "44.26012", "44.26012 N", "44° 15.6′ N",
 * "72 34 32 W". Null where it is not one, or does not lie on the axis.
 */
export function readCoordinate(text: string, axis: keyof typeof AXES): number | null {
  const { max, plus, minus } = AXES[axis]
  const tidy = text
    .trim()
    .replace(/[\s\u00a0\u202f]+/g, ' ')
    .replace(/[′’]/g, "'")
    .replace(/[″”]/g, '"')
    .replace(/^[−–]/, '-')
  const match = PATTERN.exec(tidy)
  if (!match) return null
  const [, sign, degrees = '', minutes, seconds, letter = ''] = match
  const side = letter.toUpperCase()
  if (side !== '' && side !== plus && side !== minus) return null
  if (sign === '-' && side !== '') return null
  if (minutes !== undefined && (degrees.includes('.') || Number(minutes) >= 60)) return null
  if (seconds !== undefined && (minutes?.includes('.') || Number(seconds) >= 60)) return null
  const size = Number(degrees) + Number(minutes ?? 0) / 60 + Number(seconds ?? 0) / 3600
  if (size > max) return null
  return (sign === '-' || side === minus) && size !== 0 ? -size : size
}

/** A coordinate field, blank for unknown. */
export function optionalCoordinate(axis: keyof typeof AXES) {
  return z.string().transform((text, context): Amount | null => {
    const typed = text.trim()
    if (typed === '') return null
    const si = readCoordinate(typed, axis)
    if (si !== null) return { si, typed }
    context.addIssue({
      code: 'custom',
      message: `The ${axis} must be in degrees, like ${AXES[axis].example}`,
    })
    return z.NEVER
  })
}
