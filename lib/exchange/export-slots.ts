/** Exports that are written at the same moment: each reads the whole fleet. Further ones are asked to come again. */
export const EXPORTS_AT_ONCE = 3
let running = 0

/** Takes a place; answers how to give it back, which does nothing a second time, or null where none is free. */
export function exportSlot(): (() => void) | null {
  if (running >= EXPORTS_AT_ONCE) return null
  running += 1
  let held = true
  return () => {
    if (held) running -= 1
    held = false
  }
}
