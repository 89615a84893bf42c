/** The headless browser of the tests: makes sure that one can run, or says plainly why none does. */
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { quietly, Stop, say, step } from './steps.mjs'

/** Libraries that the packaged Chromium takes from the system. */
const LIBRARIES = ['libnss3.so', 'libnspr4.so']

/** A missing browser fails the command; it never skips a test. */
export async function ensureBrowser() {
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    if (onPath()) return
    throw new Stop('The browser tests need Chromium or Chrome on the PATH of this kind of machine.')
  }
  if (missing().length === 0) return
  const debian = existsSync('/etc/debian_version') && process.getuid?.() === 0
  if (!debian)
    throw new Stop(`The browser tests need ${missing().join(' and ')}. Install the package libnss3.`)
  await step('Installing libnss3 for the browser of the tests', async () => {
    await quietly('apt-get', ['update'])
    await quietly('apt-get', ['install', '-y', 'libnss3'])
  })
  if (missing().length > 0) throw new Stop(`Still missing after installing libnss3: ${missing().join(', ')}.`)
}

function missing() {
  const { stdout, error } = spawnSync('ldconfig', ['-p'], { encoding: 'utf8' })
  if (error) {
    say('  cannot list the system libraries (ldconfig): going on without the check')
    return []
  }
  return LIBRARIES.filter((name) => !stdout.includes(name))
}

function onPath() {
  return ['chromium', 'chromium-browser', 'google-chrome', 'chrome'].some(
    (name) => spawnSync(name, ['--version']).status === 0,
  )
}
