import { hasUsers } from '@/lib/records/accounts'
import { getDb } from '@/lib/records/open'

/** For whoever watches over the server: answers when the database does. */
export async function GET(): Promise<Response> {
  await hasUsers(await getDb())
  return new Response('ok', {
    headers: { 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'no-store' },
  })
}
