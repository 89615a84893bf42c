import type { Viewer } from '@/lib/access/viewer'

/** People for tests. */
export const installer: Viewer = {
  userId: null,
  name: 'Maren',
  role: 'installer',
  ownerIds: [],
  units: 'us',
}
export const technician: Viewer = {
  userId: null,
  name: 'Joss',
  role: 'technician',
  ownerIds: [],
  units: 'us',
}
export const owner = (...ownerIds: readonly (string | null)[]): Viewer => ({
  userId: null,
  name: 'An owner',
  role: 'owner',
  ownerIds: ownerIds.filter((id) => id !== null),
  units: 'us',
})
