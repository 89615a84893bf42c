import type { Tiles } from './map-style'

type Props = {
  tiles: Tiles | null
  /** Whether the yard stands on the map. */
  yard: boolean
  /** Whether the way of a round is drawn. */
  way?: boolean
}

/** What the map shows and what not, in plain words: without tiles there is nothing beneath the wells. */
export function MapGround({ tiles, yard, way = false }: Props) {
  const shown = ['your wells', ...(yard ? ['the yard'] : [])]
  const lines = way
    ? ' The way is drawn in straight lines from stop to stop, in the order of their numbers: the roads are not known.'
    : ''
  return (
    <p className="muted small no-print">
      {tiles
        ? `North is up. Upon the ground of the map server: ${shown.join(' and ')}, and a scale bar.`
        : `Plain ground, north up, with ${shown.join(' and ')}, lines of equal latitude and longitude, and a scale bar. No rivers, roads or names come with Wellround.`}
      {lines}
    </p>
  )
}
