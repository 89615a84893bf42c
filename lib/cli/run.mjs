/** `node lib/cli/run.mjs FILE [ARGUMENTS]`: runs one of our TypeScript programs, once all it needs is there. */
import { ensureGenerated, ensureInstalled, loudly, main, Stop } from './steps.mjs'

await main(async () => {
  const [file, ...args] = process.argv.slice(2)
  if (!file) throw new Stop('Name the file to run.')
  await ensureInstalled()
  await ensureGenerated()
  return loudly(process.execPath, ['--import', 'tsx', file, ...args])
})
