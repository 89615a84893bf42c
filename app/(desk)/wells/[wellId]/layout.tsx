import type { ReactNode } from 'react'
import { ChainBanner } from '@/app/ui/chain-banner'
import { signedInViewer } from '@/app/ui/session'
import { getDb } from '@/lib/records/open'
import { openChains } from '@/lib/records/well-water'

type Props = { children: ReactNode; params: Promise<{ wellId: string }> }

/** Above every page of a well: what its household is warned of, until that is cleared. */
export default async function WellLayout({ children, params }: Props) {
  const viewer = await signedInViewer()
  const { wellId } = await params
  // For an owner these pages do not exist: each of them says so itself.
  const chains = viewer.role === 'owner' ? [] : openChains(await getDb(), viewer, wellId)
  return (
    <>
      <ChainBanner wellId={wellId} chains={chains} units={viewer.units} />
      {children}
    </>
  )
}
