import { showDay } from '@/app/ui/show-day'
import { Status } from '@/app/ui/status'
import { formatQuantity } from '@/lib/domain/quantity'
import type { UnitSystem } from '@/lib/domain/quantity/format'
import { hoursBetween } from '@/lib/domain/water/moment'
import type { Sample } from '@/lib/domain/water/types'
import type { SampleVerdict } from '@/lib/domain/water/verdict-types'
import type { SampleFact } from '@/lib/records/sample-page'

type Props = { fact: SampleFact; sample: Sample; verdict: SampleVerdict | null; units: UnitSystem }

const CHLORINE = { yes: 'chlorine was in it', no: 'no chlorine found', unknown: 'not looked at' } as const

/** When and where the sample was taken and how it reached the laboratory, with what that took from it. */
export function Journey({ fact, sample, verdict, units }: Props) {
  const flags = [
    ...new Set(
      (verdict?.findings ?? [])
        .filter((each) => each.reason === 'late' || each.reason === 'warm')
        .map((each) => `${each.name}: ${each.why}`),
    ),
  ]
  const rows: [string, string | undefined][] = [
    ['Taken', showMoment(sample.sampledAt, units)],
    ['Received by the laboratory', sample.receivedAt ? showMoment(sample.receivedAt, units) : undefined],
    ['On the way', sample.receivedAt ? sayHours(sample.sampledAt, sample.receivedAt) : undefined],
    ['Test begun', sample.analysedAt ? showMoment(sample.analysedAt, units) : undefined],
    [
      'Temperature on arrival',
      fact.receivedTemp && formatQuantity(fact.receivedTemp.si, 'temperature', units),
    ],
    ['Chlorine in the water', fact.chlorinated && CHLORINE[fact.chlorinated]],
    ['Taken from', fact.point],
    ['Taken by', fact.sampler],
    ['Why', fact.purpose?.replaceAll('-', ' ')],
    ['Laboratory', fact.lab],
    ['Sample number', fact.sampleId],
  ]
  return (
    <section className="sheet stack" aria-labelledby="journey">
      <h2 id="journey">How it was taken</h2>
      {flags.map((flag) => (
        <p key={flag}>
          <Status tone="watch">Late or warm</Status> {flag}.
        </p>
      ))}
      {sample.unconfirmed ? (
        <p>
          <Status tone="watch">Not confirmed</Status> The owner entered it; nobody of the outfit has confirmed
          it.
        </p>
      ) : null}
      <dl className="facts">
        {rows.map(([what, text]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>{text ?? <span className="muted">not on record</span>}</dd>
          </div>
        ))}
      </dl>
    </section>
  )
}

function showMoment(moment: string, units: UnitSystem): string {
  const time = moment.slice(11, 16)
  return `${showDay(moment.slice(0, 10), units)}${time === '' ? '' : `, ${time}`}`
}

function sayHours(from: string, to: string): string {
  const { least, most } = hoursBetween(from, to)
  const tidy = (hours: number) => String(Math.round(hours * 10) / 10)
  return least === most
    ? `${tidy(least)} hours`
    : `between ${Math.floor(least)} and ${Math.ceil(most)} hours: a time of day is missing`
}
