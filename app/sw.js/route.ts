import { readFile } from 'node:fs/promises'
import { join } from 'node:path'

/**
 * The worker that shows pages without signal. WELLROUND_OFFLINE=off hands out one that removes it from every phone that
 * comes by: the way back should it ever stand in somebody's way. WELLROUND_PATIENCE is how many seconds it waits for a page
 * of the server before it shows the phone's own: longer where the line is slow and there is no other.
 */
export async function GET(): Promise<Response> {
  const name = process.env.WELLROUND_OFFLINE === 'off' ? 'worker-off.js' : 'worker.js'
  const script = await readFile(join(process.cwd(), 'public', 'offline', name))
  return new Response(patience() + script.toString('utf8'), {
    headers: { 'Content-Type': 'text/javascript; charset=utf-8', 'Cache-Control': 'no-store' },
  })
}

function patience(): string {
  const given = process.env.WELLROUND_PATIENCE
  if (!given) return ''
  const seconds = Number(given)
  if (!(seconds > 0)) throw new Error(`WELLROUND_PATIENCE is "${given}" and must be a number of seconds`)
  return `self.patienceMs=${seconds * 1000};\n`
}
