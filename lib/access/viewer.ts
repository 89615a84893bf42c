import type { UnitSystem } from '@/lib/domain/quantity/format'

export const ROLES = ['installer', 'technician', 'owner'] as const
export type Role = (typeof ROLES)[number]

/** Who is asking: made from a session, from a command run on the server, or in a test. */
export type Viewer = {
  userId: string | null
  name: string
  role: Role
  /** The households of an owner, as of now; none for everybody else. An owner without one sees nothing. */
  ownerIds: readonly string[]
  units: UnitSystem
}

/** The outfit itself, for commands run on the server by whoever holds its files. */
export const OUTFIT: Viewer = {
  userId: null,
  name: 'Wellround',
  role: 'installer',
  ownerIds: [],
  units: 'us',
}
