import { hash } from 'node:crypto'
import { v7 } from 'uuid'

/** A new id, later in order than those made before it. */
export const newId = (): string => v7()

/**
 * The id of something that a file says, made from what it says (a version 8 UUID, RFC 9562):
 * the same row of the same file gives the same id, so that importing twice stores once.
 */
export function contentId(...parts: readonly string[]): string {
  const hex = hash('sha256', JSON.stringify(parts), 'hex')
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-8${hex.slice(13, 16)}-${'89ab'[Number.parseInt(hex.charAt(16), 16) & 3]}${hex.slice(17, 20)}-${hex.slice(20, 32)}`
}
