import { now } from '@/lib/clock'
import { personOfQuietToken, quietByToken } from '@/lib/records/mail-choice'
import { getDb } from '@/lib/records/open'

type Context = { params: Promise<{ token: string }> }
const ABSENT = () => new Response('Not found\n', { status: 404, headers: { 'Content-Type': 'text/plain' } })

/** One press in a mail program (RFC 8058): posts without cookies, and switches off the mail of whoever got the mail. */
export async function POST(_request: Request, { params }: Context): Promise<Response> {
  const { token } = await params
  if (!(await quietByToken(await getDb(), token, now()))) return ABSENT()
  return new Response('No more of these mails are sent.\n', { headers: { 'Content-Type': 'text/plain' } })
}

/** Opened by hand it leads to the page that asks; it switches nothing by itself. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const { token } = await params
  if (!personOfQuietToken(await getDb(), token)) return ABSENT()
  return new Response(null, { status: 303, headers: { Location: `/quiet/${encodeURIComponent(token)}` } })
}
