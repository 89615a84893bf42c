import type { ReactNode } from 'react'
import { ChainBanner, type Chains } from '@/app/ui/chain-banner'
import type { LatLon } from '@/lib/domain/place'
import type { UnitSystem } from '@/lib/domain/quantity'
import { VisitWords } from './visit-words'

export type SheetWell = {
  id: string
  label: string
  name: string | null
  area: string | null
  at: LatLon | null
  owner: { name: string; phone: string | null } | null
  access: string | null
  visitFrom: string | null
  visitUntil: string | null
  visitDays: string | null
  gateCode: string | null
  hazards: string | null
}

type Props = {
  well: SheetWell
  /** The number of the stop on its round. */
  number?: number
  /** Of the heading; the block is named by it. */
  headingId: string
  chains: Chains
  units: UnitSystem
  /** Times and the way to the head, between the warning and the way in. */
  children?: ReactNode
}

/** The head of a block on paper: which well, what to warn of, where it is, how to get in, and what to beware of. */
export function SheetHead({ well, number, headingId, chains, units, children }: Props) {
  const { at, owner } = well
  const where = [
    well.area,
    at ? `${at.latitude.toFixed(5)}, ${at.longitude.toFixed(5)}` : 'no coordinate',
    owner ? [owner.name, owner.phone].filter(Boolean).join(', ') : 'no owner named',
  ].filter(Boolean)
  return (
    <>
      <h2 id={headingId}>
        {number === undefined ? '' : `${number}. `}
        {well.label}
        {well.name ? ` – ${well.name}` : ''}
      </h2>
      <ChainBanner wellId={well.id} chains={chains} units={units} />
      <p>{where.join(' · ')}</p>
      {children}
      {well.access ? <p>Way in: {well.access}</p> : null}
      <VisitWords well={well} />
    </>
  )
}
