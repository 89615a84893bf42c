import type { PlaceFact } from '@/lib/domain/logbook/place-kinds'
import type { LatLon } from '@/lib/domain/place'
import { fromSi, toSi } from '@/lib/domain/quantity'
import { between, chance, type Dice } from './dice'
import type { Story } from './valley'

/** Invented marks that stay. */
const MARKS = [
  ['barn corner, north-east', 'corner iron at knee height'],
  ['gate post, hinge side', 'set in concrete'],
  ['boulder with the drill hole', 'tape from the hole'],
  ['pump shed, door jamb', 'left jamb, at the sill'],
  ['power pole', 'tag on the road side'],
] as const

/**
 * The invented measurement of a head that lies at `head`: a phone's position, three tapes to marks around it and the
 * tapes between the marks, with the slips of a careful hand. Null for some wells: nobody measured those.
 */
export function placeOf(dice: Dice, head: LatLon, name: string, story: Story | undefined): PlaceFact | null {
  // The first three throws are the same for every well, so that a story changes no neighbour.
  const measured = chance(dice, 0.8)
  const accuracyFt = Math.round(between(dice, 10, 30))
  const fix: PlaceFact['fix'] = {
    latitude: Number((head.latitude + between(dice, -2e-5, 2e-5)).toFixed(6)),
    longitude: Number((head.longitude + between(dice, -2e-5, 2e-5)).toFixed(6)),
    typed: '',
    accuracy: feet(accuracyFt, 0),
    how: 'phone',
  }
  fix.typed = `${fix.latitude}, ${fix.longitude}`
  if (story === 'cannot-be-found') return lostPlace(fix)
  if (!measured && !WITH_SLIP.has(name)) return null
  const start = Math.floor(between(dice, 0, MARKS.length))
  const turn = between(dice, 0, 360)
  const marks = [0, 1, 2].map((i) => {
    const [markName, about] = MARKS[(start + i) % MARKS.length] ?? MARKS[0]
    const bearing = ((turn + i * 120 + between(dice, -25, 25)) * Math.PI) / 180
    const away = between(dice, 4, 18)
    return { name: markName, about, eastM: away * Math.sin(bearing), northM: away * Math.cos(bearing), away }
  })
  const slip = WITH_SLIP.has(name) ? 0.9 : 0
  const [a, b, c] = marks
  if (!a || !b || !c) throw new Error('three marks were thrown')
  const apart = (p: typeof a, q: typeof a) => Math.hypot(p.eastM - q.eastM, p.northM - q.northM)
  const careful = () => between(dice, -0.02, 0.02)
  return {
    kind: 'place-measured',
    fix,
    marks: {
      given: 'spans',
      list: marks.map((mark, i) => ({
        name: mark.name,
        about: mark.about,
        ...(i === 2 ? { side: handOf(a, b, c) } : {}),
      })),
      spans: [
        { from: a.name, to: b.name, tape: feet(fromSi(apart(a, b) + careful(), 'ft')) },
        { from: a.name, to: c.name, tape: feet(fromSi(apart(a, c) + careful(), 'ft')) },
        { from: b.name, to: c.name, tape: feet(fromSi(apart(b, c) + careful(), 'ft')) },
      ],
      firstToSecond: {
        degrees: Math.round(
          ((Math.atan2(b.eastM - a.eastM, b.northM - a.northM) * 180) / Math.PI + 360) % 360,
        ),
        north: 'true',
      },
    },
    ties: marks.map(({ name: mark, away }, i) => ({
      mark,
      tape: feet(fromSi(away + careful() + (i === 1 ? slip : 0), 'ft')),
    })),
    cover: { si: toSi(10, 'in'), typed: '10 in' },
  }
}

/** One tape of these was read three feet wrong; nobody noticed on the day. */
const WITH_SLIP: ReadonlySet<string> = new Set(['Camp Kitchen'])

/** What was left of the well that nobody finds: a blazed larch that is gone, and paces. */
function lostPlace(fix: NonNullable<PlaceFact['fix']>): PlaceFact {
  return {
    kind: 'place-measured',
    fix: { ...fix, accuracy: feet(120, 0), how: 'map' },
    marks: { given: 'names', list: [{ name: 'blazed larch', about: 'blaze on the downhill side' }] },
    ties: [{ mark: 'blazed larch', tape: feet(31.5) }],
    paced: {
      mark: 'blazed larch',
      paces: 13,
      pace: feet(2.5),
      bearing: { degrees: 205, north: 'magnetic' },
    },
    note: 'First summer: one tie only, the truck had to leave.',
  }
}

function feet(value: number, decimals = 1): { si: number; typed: string } {
  const text = value.toFixed(decimals)
  return { si: toSi(Number(text), 'ft'), typed: `${text} ft` }
}

type Flat = { eastM: number; northM: number }

/** The hand on which c lies when walking from a to b. */
function handOf(a: Flat, b: Flat, c: Flat): 'left' | 'right' {
  const cross = (b.eastM - a.eastM) * (c.northM - a.northM) - (b.northM - a.northM) * (c.eastM - a.eastM)
  return cross > 0 ? 'left' : 'right'
}
