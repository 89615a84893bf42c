'use client'

import 'maplibre-gl/dist/maplibre-gl.css'
import Link from 'next/link'
import { useEffect, useRef, useState } from 'react'
import { isMapStatus, MAP_WORDS } from '@/lib/domain/place'
import { paths } from '@/lib/paths'
import type { FleetMapProps } from './fleet-map-props'
import { openMap, type Picked } from './open-map'

type State = { kind: 'loading' } | { kind: 'shown'; wells: number } | { kind: 'failed'; says: string }

/**
 * Wells on a map that needs no server but ours: symbols by status, clusters, a grid and a scale bar, and tiles only where
 * the outfit has chosen some. Loaded when it is shown; without script, or where the browser cannot draw, the list
 * beside it says everything.
 */
export function FleetMap({ label, points, source, line, yard, tiles, units }: FleetMapProps) {
  const frame = useRef<HTMLDivElement>(null)
  const [state, setState] = useState<State>({ kind: 'loading' })
  const [picked, setPicked] = useState<Picked | null>(null)

  useEffect(() => {
    const box = frame.current
    if (!box) return
    let close = () => {}
    let gone = false
    openMap(box, { label, points, source, line, yard, tiles, units }, setPicked)
      .then((map) => {
        if (gone) map.close()
        else {
          close = map.close
          setState({ kind: 'shown', wells: map.wells })
        }
      })
      .catch((error: unknown) => {
        const why = error instanceof Error ? ` (${error.message})` : ''
        setState({ kind: 'failed', says: `${CANNOT}${why}` })
      })
    return () => {
      gone = true
      close()
    }
  }, [label, points, source, line, yard, tiles, units])

  return (
    <figure
      className="fleet-map stack-tight no-print"
      data-state={state.kind}
      data-wells={state.kind === 'shown' ? state.wells : undefined}
    >
      <div className="map-box" hidden={state.kind === 'failed'}>
        <div className="map-frame" ref={frame} />
        <span className="map-north" aria-hidden="true">
          ↑<br />N
        </span>
      </div>
      <div role="status" className="muted small">
        {state.kind === 'loading' ? 'The map is being loaded; the list below says the same.' : null}
        {state.kind === 'failed' ? state.says : null}
        {picked ? (
          <span className="map-picked">
            <Link href={paths.well(picked.id)} prefetch={false}>
              {picked.label}
            </Link>
            : {statusWords(picked.status)}.{' '}
            <Link href={paths.findWell(picked.id)} prefetch={false}>
              Find it
            </Link>
          </span>
        ) : null}
      </div>
      {tiles ? <figcaption className="muted small">Map: {tiles.attribution}</figcaption> : null}
    </figure>
  )
}

const CANNOT = 'This browser cannot draw the map here. The list below says the same.'

const statusWords = (text: string): string => (isMapStatus(text) ? MAP_WORDS[text] : text)
