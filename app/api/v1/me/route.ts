import { deskSession } from '@/app/ui/session'

/** Who is signed in, for pages that the phone shows by itself. Not there for anybody outside the desk. */
export async function GET(): Promise<Response> {
  const session = await deskSession()
  if (!session) return new Response('Not found', { status: 404 })
  const { userId, name } = session.viewer
  return Response.json({ user: userId, name }, { headers: { 'Cache-Control': 'no-store' } })
}
