import { headers } from 'next/headers'
import { applyCookies } from '@/app/ui/session'
import { getDb } from '@/lib/records/open'
import { signOut } from '@/lib/records/sessions'

/** Ends the session. By POST only, so that no link or picture can sign somebody out. */
export async function POST(): Promise<Response> {
  await applyCookies(await signOut(await getDb(), await headers()))
  return new Response(null, { status: 303, headers: { Location: '/sign-in?left=yes' } })
}
