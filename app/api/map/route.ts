import { deskSession } from '@/app/ui/session'
import { today } from '@/lib/clock'
import { readMapQuery } from '@/lib/forms/map-query'
import { mapPoints, mapWells } from '@/lib/records/map-wells'
import { getDb } from '@/lib/records/open'

/** The points of the map: place, label and how each well stands, and nothing more. Kept nowhere. */
export async function GET(request: Request): Promise<Response> {
  const session = await deskSession()
  if (!session) return new Response('Not found', { status: 404 })
  const asked = new URL(request.url).searchParams
  const names = [...new Set(asked.keys())]
  const { filter } = readMapQuery(Object.fromEntries(names.map((name) => [name, asked.getAll(name)])))
  const points = mapPoints(mapWells(await getDb(), session.viewer, today(), { ...filter, from: undefined }))
  return Response.json(points, { headers: { 'Cache-Control': 'no-store' } })
}
