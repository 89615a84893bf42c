import { MAP_STATUSES, MAP_WORDS, type MapStatus } from '@/lib/domain/place'
import { SYMBOLS } from './map-symbols'

/** What the symbols of the map mean. */
export function MapKey() {
  return (
    <ul className="map-key no-print" aria-label="Symbols of the map">
      {MAP_STATUSES.map((status) => (
        <li key={status}>
          <MapSymbol status={status} />
        </li>
      ))}
    </ul>
  )
}

/** One status as its symbol and its word. */
export function MapSymbol({ status }: { status: MapStatus }) {
  return (
    <span className={`status map-status-${status}`}>
      <svg viewBox="0 0 16 16" aria-hidden="true" focusable="false">
        <path d={SYMBOLS[status].d} />
      </svg>
      <span className="status-word">{MAP_WORDS[status]}</span>
    </span>
  )
}
