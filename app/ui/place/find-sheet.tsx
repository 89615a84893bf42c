import type { ReactNode } from 'react'
import type { MeasuredPlace, PlacePhoto, PlaceSheet } from '@/lib/domain/logbook/place-record'
import { sayReach } from '@/lib/domain/logbook/place-words'
import { type FindStep, type Fix, findIt, letterOf, sayStep } from '@/lib/domain/place'
import { formatNumber, formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import { FromHere } from './from-here'
import { PlaceDrawing } from './place-drawing'
import { PlacePhotos } from './place-photos'

type Props = {
  place: PlaceSheet & {
    measured: Pick<MeasuredPlace, 'fact'> | null
    well: { access: string | null }
    photos: readonly PlacePhoto[]
  }
  units: UnitSystem
  /** Stands beside the drawing on paper: the code that leads back to this page. */
  code?: ReactNode
  /** The photos, where they do not come from the server. */
  pictures?: ReactNode
  /** False for who must not open the well: how to open it is not told then. */
  opens?: boolean
}

/** The way to a buried head, step by step: read on a phone at the site, or printed on one page. */
export function FindSheet({ place, units, code, pictures, opens = true }: Props) {
  const { measured, found, asBuilt, declinationDeg, well, photos } = place
  const steps = findIt(asBuilt, null, declinationDeg, units)
  const wrong = found?.findings.filter((finding) => finding.kind === 'wrong') ?? []
  const located = found?.located
  const meet = located?.kind !== 'no-place' && located?.misfit.kind !== 'does-not-fit'
  return (
    <div className="find">
      <div className="find-side">
        {measured && found ? <PlaceDrawing measured={measured} found={found} units={units} /> : null}
        {code ? (
          <div className="print-only find-code">
            {code}
            <p>Opens this page on a phone</p>
          </div>
        ) : null}
      </div>
      {well.access ? <p className="text">Way in: {well.access}</p> : null}
      {wrong.length > 0 ? (
        <div className="find-wrong" role="note">
          <strong>The record does not fit together.</strong>
          <ul>
            {wrong.map(({ says }) => (
              <li key={says}>{says}</li>
            ))}
          </ul>
        </div>
      ) : null}
      <ol className="find-steps">
        {steps.map((step) => (
          <li key={step.kind}>
            <Step
              step={step}
              meet={meet}
              units={units}
              pictures={pictures ?? <PlacePhotos photos={photos} />}
            />
            {step.kind === 'go-to' ? (
              <FromHere target={step.fix} declinationDeg={declinationDeg} units={units} />
            ) : null}
          </li>
        ))}
      </ol>
      {opens ? <Cautions /> : null}
    </div>
  )
}

type StepProps = { step: FindStep; meet: boolean; units: UnitSystem; pictures: ReactNode }

function Step({ step, meet, units, pictures }: StepProps) {
  switch (step.kind) {
    case 'go-to':
      return <GoTo fix={step.fix} units={units} />
    case 'walk':
      return <p>{step.way.words}</p>
    case 'look':
      return (
        <>
          <h2>Look around for the marks</h2>
          {pictures}
        </>
      )
    case 'swing':
      return <Swing step={step} meet={meet} units={units} />
    case 'pace':
      return <Pace step={step} units={units} />
    case 'probe':
      return (
        <>
          <h2>{step.coverM === null ? 'Probe' : `Probe: ${sayReach(step.coverM, units)} of cover`}</h2>
          <p>{step.note}</p>
          <p>
            <strong>{step.caution}</strong>
          </p>
        </>
      )
    case 'stuck':
      return <p>{step.why}</p>
  }
}

function GoTo({ fix, units }: { fix: Fix; units: UnitSystem }) {
  const text = `${formatNumber(fix.latitude, 5, 6)}, ${formatNumber(fix.longitude, 5, 6)}`
  return (
    <>
      <h2>Go near by the coordinate</h2>
      <p>
        <a className="find-large" href={`geo:${fix.latitude},${fix.longitude}`}>
          {text}
        </a>
      </p>
      <p>
        {fix.accuracyM === null
          ? 'How good it is was not recorded: expect to be a house’s width off.'
          : `Good to ±${sayStep(fix.accuracyM, units)}.`}
      </p>
    </>
  )
}

/** Common practice, no published source. */
const NOT_MEETING =
  'As written these tapes do not meet in one point: one of them is wrong. Mark where each two of them cross or come nearest, and probe there, one place after the other.'

type SwingProps = { step: Extract<FindStep, { kind: 'swing' }>; meet: boolean; units: UnitSystem }

function Swing({ step, meet, units }: SwingProps) {
  const say = (m: number) => formatQuantity(m, 'distance', units)
  return (
    <>
      <h2>Swing the tapes</h2>
      <ul className="plain-list">
        {step.tapes.map(({ mark, about, tapeM, levelM }, i) => (
          <li key={mark}>
            <strong className="find-large">{say(levelM)}</strong> level from {letterOf(i)}: {mark}
            {about ? ` (${about})` : ''}
            {Math.abs(tapeM - levelM) > 0.005 ? `; ${say(tapeM)} along the slope as it was taped` : ''}
          </li>
        ))}
      </ul>
      <p>{meet ? step.note : NOT_MEETING}</p>
    </>
  )
}

function Pace({ step, units }: { step: Extract<FindStep, { kind: 'pace' }>; units: UnitSystem }) {
  const way = [
    step.paces === null
      ? null
      : `${step.paces} paces${step.distanceM === null ? '' : `, about ${formatQuantity(step.distanceM, 'distance', units)}`}`,
    step.compassDeg === null ? null : `${Math.round(step.compassDeg)}° by compass`,
    step.trueDeg === null ? null : `${Math.round(step.trueDeg)}° from true north`,
  ].filter((part) => part !== null)
  return (
    <>
      <h2>Or pace it</h2>
      <p>
        <strong className="find-large">{way.join(', ')}</strong> from {step.mark}
      </p>
      <p>{step.note}</p>
    </>
  )
}

/** Common practice, no published source; local codes and licensed practice come first. */
function Cautions() {
  return (
    <section className="caution stack-tight" aria-labelledby="cautions">
      <h2 id="cautions">Before you open it</h2>
      <ul>
        <li>
          Nobody goes into a well, pit or vault: the air in it can kill without a smell. Work from above.
        </li>
        <li>
          Lids of concrete or iron weigh more than one person lifts. Slide or lever them, two people, fingers
          out of the gap, and never leave the hole open and alone.
        </li>
        <li>Switch the pump off and lock it out before anything is unplugged or pulled.</li>
        <li>Keep soil, boots and tools out of the water. Local codes and licensed practice come first.</li>
      </ul>
    </section>
  )
}
