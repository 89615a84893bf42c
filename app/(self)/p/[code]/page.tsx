import { notFound, redirect } from 'next/navigation'
import { signedInViewer } from '@/app/ui/session'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { wellOfPlate } from '@/lib/records/plates'

/**
 * Where a scanned plate leads. Nobody is told whether a code exists: who is not signed in comes to the door whatever the
 * code, and who may not see the well gets what an unknown code gets.
 */
export default async function PlatePage({ params }: { params: Promise<{ code: string }> }) {
  const viewer = await signedInViewer()
  const wellId = wellOfPlate(await getDb(), viewer, (await params).code)
  if (wellId === null) notFound()
  redirect(viewer.role === 'owner' ? paths.ownWell(wellId) : paths.well(wellId))
}
