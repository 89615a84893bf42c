/**
 * `npm test`: everything that must hold, in the order in which a fault is cheapest to find. Installs what
 * it needs first. `npm test -- fast` leaves the pages and the browser out; `npm test -- browser` runs them alone.
 */
import { mkdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { ensureBrowser } from './browser.mjs'
import { ensureBuilt } from './build.mjs'
import { ensureGenerated, ensureInstalled, loudly, main, ROOT, Stop, say } from './steps.mjs'

const OUT = join(ROOT, 'tests', '.out')
const part = process.argv[2] ?? 'all'

await main(async () => {
  if (!['all', 'fast', 'browser'].includes(part))
    throw new Stop('Parts are: fast, browser. Without one, all run.')
  await ensureInstalled()
  await ensureGenerated()
  rmSync(OUT, { recursive: true, force: true })
  mkdirSync(OUT, { recursive: true })
  const counts = { passed: 0, failed: 0 }
  if (part !== 'browser') {
    await check('Next types', [bin('next'), 'typegen'], counts)
    await check('Format and lint', [bin('@biomejs/biome'), 'check', '.'], counts)
    await check('Types', [bin('typescript', 'tsc'), '--noEmit'], counts)
    await check(
      'Who imports whom',
      [
        bin('dependency-cruiser', 'depcruise'),
        'lib',
        'app',
        'seed',
        'tests',
        '--config',
        '.dependency-cruiser.cjs',
      ],
      counts,
    )
    await check('Dead code', [bin('knip')], counts)
    await suite('fast', counts)
  }
  if (part !== 'fast') {
    await ensureBuilt()
    await ensureBrowser()
    await suite('browser', counts)
  }
  say('')
  process.stdout.write(`${counts.passed} passed, ${counts.failed} failed\n`)
  return counts.failed === 0 && counts.passed > 0 ? 0 : 1
})

/** One checker, counted as one test. */
async function check(what, args, counts) {
  say(`\n== ${what}`)
  const code = await loudly(process.execPath, args)
  if (code === 0) counts.passed += 1
  else counts.failed += 1
}

/** One vitest project, each of its tests counted; a run that ends badly without a failed test counts as one. */
async function suite(project, counts) {
  say(`\n== Tests: ${project}`)
  const report = join(OUT, `${project}.json`)
  const code = await loudly(process.execPath, [
    bin('vitest'),
    'run',
    '--project',
    project,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
  ])
  const { numPassedTests = 0, numFailedTests = 0 } = readReport(report)
  counts.passed += numPassedTests
  counts.failed += code !== 0 && numFailedTests === 0 ? 1 : numFailedTests
}

function readReport(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'))
  } catch (error) {
    if (error.code !== 'ENOENT') throw error
    return {} // the run ended before it could write one; its exit status says so
  }
}

/** The program of a package, run by this Node itself: a wrapper between would keep it alive when we are stopped. */
function bin(name, program = name.split('/').pop()) {
  const folder = join(ROOT, 'node_modules', name)
  const { bin: programs } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
  const file = typeof programs === 'string' ? programs : programs[program]
  if (!file) throw new Stop(`The package ${name} has no program ${program}.`)
  return join(folder, file)
}
