import type { Viewer } from '@/lib/access/viewer'

/** People for tests. */
export const installer: Viewer = {
  userId: null,
  name: 'Maren',
  role: 'installer',
  ownerId: null,
  units: 'us',
}
export const technician: Viewer = {
  userId: null,
  name: 'Joss',
  role: 'technician',
  ownerId: null,
  units: 'us',
}
export const owner = (ownerId: string | null): Viewer => ({
  userId: null,
  name: 'An owner',
  role: 'owner',
  ownerId,
  units: 'us',
})
