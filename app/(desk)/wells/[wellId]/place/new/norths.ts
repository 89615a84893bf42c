export const NORTHS = [
  { value: 'magnetic', label: 'compass north' },
  { value: 'true', label: 'true north (map, satellite)' },
]
