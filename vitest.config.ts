import { fileURLToPath } from 'node:url'
import { defineConfig } from 'vitest/config'

const root = fileURLToPath(new URL('.', import.meta.url))

export default defineConfig({
  resolve: { alias: { '@': root, 'server-only': `${root}tests/setup/server-only.ts` } },
  test: {
    testTimeout: 300_000,
    hookTimeout: 300_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'fast',
          globalSetup: ['tests/setup/migrated.ts'],
          setupFiles: ['tests/setup/dice.ts'],
          include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
          exclude: ['tests/browser/**', 'tests/bench/**'],
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          // Limits that end a run which hangs, far above what a slow machine needs: see tests/browser/harness.ts.
          testTimeout: 900_000,
          hookTimeout: 900_000,
          expect: { poll: { timeout: 90_000, interval: 100 } },
          fileParallelism: false,
        },
      },
    ],
  },
})
