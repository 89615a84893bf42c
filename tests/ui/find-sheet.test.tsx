import { renderToStaticMarkup } from 'react-dom/server'
import { describe, expect, test } from 'vitest'
import { MapGround } from '@/app/ui/map/map-ground'
import { FindSheet } from '@/app/ui/place/find-sheet'
import { describeFact } from '@/lib/domain/logbook/describe'
import type { PlaceFact } from '@/lib/domain/logbook/place-kinds'
import { placeSheet } from '@/lib/domain/logbook/place-record'

const metres = (si: number) => ({ si, typed: `${si} m` })

/** Marks at the corners of a right triangle with sides of 3, 4 and 5 m, measured by tapes alone. */
const taped = (third: number): PlaceFact => ({
  kind: 'place-measured',
  marks: {
    given: 'spans',
    list: [{ name: 'barn' }, { name: 'gate' }, { name: 'pole', side: 'left' }],
    spans: [
      { from: 'barn', to: 'gate', tape: metres(4) },
      { from: 'barn', to: 'pole', tape: metres(3) },
      { from: 'gate', to: 'pole', tape: metres(5) },
    ],
  },
  // The middle of the hypotenuse is 2.5 m from every corner (Thales).
  ties: ['barn', 'gate', 'pole'].map((mark, i) => ({ mark, tape: metres(i === 2 ? third : 2.5) })),
  cover: metres(0.25),
})

function sheetOf(fact: PlaceFact): string {
  const place = placeSheet(fact, null, [], 'metric')
  const shown = { ...place, measured: { fact }, well: { access: null }, photos: [] }
  return renderToStaticMarkup(<FindSheet place={shown} units="metric" />).replaceAll('\u00a0', ' ')
}

describe('the sheet that leads to a head', () => {
  test('serves from tapes alone: a drawing to scale and the tapes, and no coordinate is made up', () => {
    const html = sheetOf(taped(2.5))
    expect(html).toContain('<svg')
    expect(html).toContain('Hold all tapes at their lengths: the head lies where they meet.')
    expect(html).toContain('Which way is north was not recorded')
    expect(html).not.toContain('Go near by the coordinate')
  })

  test('does not send anybody to where tapes meet that do not', () => {
    const html = sheetOf(taped(4.5))
    expect(html).toContain('The record does not fit together.')
    expect(html).not.toContain('the head lies where they meet')
    expect(html).toContain('As written these tapes do not meet in one point')
  })
})

test('a place is told with its cover as short lengths are, and how good a position is to the metre or foot', () => {
  const fix = {
    latitude: 44.1,
    longitude: -121.3,
    typed: '44.1, -121.3',
    accuracy: metres(5.2),
    how: 'phone' as const,
  }
  const told = (units: 'us' | 'metric') =>
    describeFact({ ...taped(2.5), fix }, units).replaceAll('\u00a0', ' ')
  expect(told('metric')).toContain('25 cm of cover')
  expect(told('metric')).toContain('±5 m;')
  expect(told('us')).toContain('10 in of cover')
  expect(told('us')).toContain('±17 ft;')
})

describe('the ground of the map', () => {
  const says = (props: Parameters<typeof MapGround>[0]) => renderToStaticMarkup(<MapGround {...props} />)

  test('is told plainly where no map server is named', () => {
    expect(says({ tiles: null, yard: true })).toContain(
      'Plain ground, north up, with your wells and the yard, lines of equal latitude and longitude, and a scale bar. No rivers, roads or names come with Wellround.',
    )
    expect(says({ tiles: null, yard: false })).not.toContain('yard')
  })

  test('does not call a ground plain that has a map, and the way of a round is no road on either', () => {
    const tiles = { url: 'https://tiles.example/{z}/{x}/{y}.png', attribution: 'x' }
    const html = says({ tiles, yard: true, way: true })
    expect(html).not.toContain('Plain ground')
    expect(html).toContain('North is up.')
    expect(html).toContain('the roads are not known')
  })
})
