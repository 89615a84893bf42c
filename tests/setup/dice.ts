import { readFileSync } from 'node:fs'
import { expect } from 'vitest'

/**
 * Properties are tried on the same cases in every run, so that a run speaks of the change and not of its dice.
 * `PROPERTY_SEED=7 npm test -- fast` tries others; what fails prints its seed either way. Only files that use the library
 * load it.
 */
const { testPath } = expect.getState()
if (testPath && readFileSync(testPath, 'utf8').includes("from 'fast-check'")) {
  const { default: fc } = await import('fast-check')
  fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 20261120) })
}
