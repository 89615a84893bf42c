import Link from 'next/link'
import type { PlaceSheet } from '@/lib/domain/logbook/place-record'
import { paths } from '@/lib/paths'

type Tried = Pick<PlaceSheet, 'found' | 'asBuilt'> & {
  well: { id: string }
  /** Whether the place was measured before that, too. */
  earlier: boolean
}

/** What to try when the head does not show up: first what this record leaves open, then what is usual. */
export function NextTries({ place, open }: { place: Tried; open: boolean }) {
  return (
    <details className="section no-print" open={open}>
      <summary>Not there? What to try next</summary>
      <div className="section-body">
        <ol>
          {[...ofRecord(place), ...USUAL].map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ol>
        <p className="muted small">Common practice, no published source.</p>
        <p>
          <Link href={paths.wellPlace(place.well.id)} prefetch={false}>
            Earlier measurements and photos
          </Link>
        </p>
      </div>
    </details>
  )
}

function ofRecord({ found, asBuilt, earlier }: Tried): string[] {
  const { located, choice } = found ?? {}
  const misfit = located?.kind === 'located' ? located.misfit : null
  const suspects = misfit?.kind === 'does-not-fit' ? misfit.suspects : []
  const several = located?.kind === 'located' && located.candidates.length > 1
  return [
    ...(suspects.length > 0
      ? [`Leave out the tape from ${suspects.join(' or ')} and try where the others meet: it does not fit.`]
      : []),
    ...(asBuilt.ties.length === 2 && (choice?.kind === 'two' || several)
      ? ['Try the other hand: two tapes meet once on each side of the line between the marks.']
      : []),
    ...(asBuilt.ties.some((tie) => tie.slope.kind === 'level')
      ? [
          'Hold the tapes level, then once more along the ground: on a slope a tape that lay on it reaches too far.',
        ]
      : []),
    ...(earlier
      ? ['Go by an earlier measurement: the latest may have been taken from a mark that was moved.']
      : []),
  ]
}

const USUAL = [
  'Make sure that each mark is still the one in the photo: posts are replaced and corners built on.',
  'Probe in rings around the spot, a hand’s breadth apart, out to the error that is given.',
  'Follow the outlet back: from where the pipe enters the house or tank, with a pipe and cable locator.',
  'Sweep with a magnetic locator: the cap, its bolts or the pump’s motor answer, a plastic casing does not.',
  'Ask the owner and the neighbours, and look at the photos of the day it was built.',
]
