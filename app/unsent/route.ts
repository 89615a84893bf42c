import { readFile } from 'node:fs/promises'
import { join } from 'node:path'

/** What waits on this phone: one page for everybody, which holds no data and shows what the phone holds. */
export async function GET(): Promise<Response> {
  const page = await readFile(join(process.cwd(), 'public', 'offline', 'shell.html'))
  return new Response(new Uint8Array(page), {
    headers: { 'Content-Type': 'text/html; charset=utf-8', 'Cache-Control': 'no-store' },
  })
}
