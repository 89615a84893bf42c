import { isMapStatus, type LatLon, type MapStatus } from '@/lib/domain/place'
import { readCoordinate } from './coordinate'
import { listParam, type Params, textParam } from './list-filters'

export type MapQuery = {
  filter: { area?: string; status?: MapStatus; wells?: readonly string[]; from?: LatLon }
  /** As asked, for links and to fill the form in again. */
  texts: { area: string; status: string; from: string; wells: string[] }
  page: number
  errors: Record<string, string>
}

/** The map that an address asks for. Anything unknown in it is left aside; a place that cannot be read is told. */
export function readMapQuery(params: Params): MapQuery {
  const texts = {
    area: textParam(params, 'area'),
    status: textParam(params, 'status'),
    from: textParam(params, 'from'),
    wells: listParam(params, 'wells').filter(Boolean),
  }
  const from = texts.from === '' ? null : pointOf(texts.from)
  const page = Number(textParam(params, 'page'))
  return {
    filter: {
      ...(texts.area === '' ? {} : { area: texts.area }),
      ...(isMapStatus(texts.status) ? { status: texts.status } : {}),
      ...(texts.wells.length === 0 ? {} : { wells: texts.wells }),
      ...(from ? { from } : {}),
    },
    texts,
    page: Number.isInteger(page) && page > 1 && page < 100_000 ? page : 1,
    errors:
      texts.from !== '' && !from
        ? { from: 'The place must be latitude and longitude with a comma between, like 44.15, -121.3' }
        : {},
  }
}

function pointOf(text: string): LatLon | null {
  const [lat = '', lon = '', ...more] = text.split(',')
  const latitude = readCoordinate(lat, 'latitude')
  const longitude = readCoordinate(lon, 'longitude')
  return more.length > 0 || latitude === null || longitude === null ? null : { latitude, longitude }
}
