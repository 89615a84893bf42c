import { readFile } from 'node:fs/promises'
import { join } from 'node:path'

/**
 * The worker that shows pages without signal. WELLROUND_OFFLINE=off hands out one that removes it from every phone that
 * comes by: the way back should it ever stand in somebody's way.
 */
export async function GET(): Promise<Response> {
  const name = process.env.WELLROUND_OFFLINE === 'off' ? 'worker-off.js' : 'worker.js'
  const script = await readFile(join(process.cwd(), 'public', 'offline', name))
  return new Response(new Uint8Array(script), {
    headers: { 'Content-Type': 'text/javascript; charset=utf-8', 'Cache-Control': 'no-store' },
  })
}
