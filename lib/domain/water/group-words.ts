import type { SampledGroup } from './sampling'

/** What each group of tests is called. */
export const GROUP_NAMES: Readonly<Record<SampledGroup, string>> = {
  bacteria: 'Bacteria',
  nitrate: 'Nitrate and nitrite',
  general: 'General chemistry',
  metals: 'Metals and fluoride',
  'radio-and-organics': 'Radioactivity and organics',
}
