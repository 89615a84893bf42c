import type { Tone } from '@/app/ui/status'
import type { WaterViewGroup } from '@/lib/forms/water-query'

export const GROUP_WORDS: Record<WaterViewGroup, string> = {
  chain: 'Not cleared after a positive',
  exceeds: 'Above a limit, no chain open',
  inconclusive: 'Cannot be said',
  due: 'Sample past due or due within 30 days',
  gaps: 'Not tested for all that counts, or not since it changed',
  never: 'Never tested',
  stale: 'Met the limits, but tested too long ago',
  meets: 'Met the limits, for what was tested',
}

export const GROUP_TONES: Record<WaterViewGroup, Tone> = {
  chain: 'alarm',
  exceeds: 'alarm',
  inconclusive: 'watch',
  due: 'watch',
  gaps: 'unsure',
  never: 'unsure',
  stale: 'unsure',
  meets: 'calm',
}
