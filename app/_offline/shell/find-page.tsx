import { useEffect } from 'react'
import { PageHead } from '@/app/ui/page-head'
import { FromHere } from '@/app/ui/place/from-here'
import type { PhoneWell } from '@/lib/exchange/phone/shape'
import { paths } from '@/lib/paths'
import { words } from '../take-along'

/** The way to a buried head as it was taken along, with where this phone stands. */
export function OfflineFind({ well, takenAt }: { well: PhoneWell; takenAt: string }) {
  const { target, declinationDeg, steps } = well.find
  useEffect(() => {
    document.title = `Find ${well.label} – Wellround`
  }, [well])
  return (
    <>
      <PageHead title={`Find ${well.label}`} lead={well.name ?? undefined}>
        <a className="button button-quiet" href={paths.well(well.id)}>
          Back to the well
        </a>
      </PageHead>
      <p className="muted">From what is on this phone, last updated {words(takenAt)}.</p>
      {well.access ? <p className="text">Way in: {well.access}</p> : null}
      {target ? <FromHere target={target} declinationDeg={declinationDeg} units={well.units} /> : null}
      <ol className="stack">
        {steps.map(({ title, lines }) => (
          <li key={title}>
            <h2>{title}</h2>
            {lines.map((line) => (
              <p key={line}>{line}</p>
            ))}
          </li>
        ))}
      </ol>
    </>
  )
}
