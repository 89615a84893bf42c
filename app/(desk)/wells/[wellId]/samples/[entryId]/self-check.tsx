import { Status } from '@/app/ui/status'
import type { IndexAnswer } from '@/lib/domain/water/indices'
import { sheetChecks, sheetIndices } from '@/lib/domain/water/sheet-checks'
import type { Sample } from '@/lib/domain/water/types'
import type { WaterTemperature } from '@/lib/forms/water-temperature'

type Props = { sample: Sample; temperature: WaterTemperature; typed: string; unit: string }

/** Whether the sheet agrees with itself, and the indices it has the numbers for. Prompts to look again, never verdicts. */
export function SelfCheck({ sample, temperature, typed, unit }: Props) {
  const checks = sheetChecks(sample)
  const tempC = temperature.kind === 'value' ? temperature.tempC : null
  const { langelier, langelierCalcite, ryznar, sodiumAdsorption } = sheetIndices(sample, tempC)
  // With any temperature: are the other four numbers on the sheet?
  const scaleReady = sheetIndices(sample, 10).langelier !== null
  if (checks.length === 0 && !scaleReady && sodiumAdsorption === null) return null
  return (
    <section className="sheet stack" aria-labelledby="self">
      <h2 id="self">The sheet against itself</h2>
      <p className="muted text">
        These ask for a second look at units and typing. They are no verdict on the water, and good sheets
        fail them at times.
      </p>
      <ul className="plain-list stack-tight">
        {checks.map((check) => (
          <li key={check.check}>
            <Status tone={check.agrees ? 'calm' : 'watch'}>{check.agrees ? 'Agrees' : 'Look again'}</Status>{' '}
            {check.text}
          </li>
        ))}
      </ul>
      {scaleReady || sodiumAdsorption !== null ? <h3>Scale, corrosion, irrigation</h3> : null}
      {scaleReady ? <TemperatureForm {...{ temperature, typed, unit }} /> : null}
      <ul>
        <IndexLine
          answer={langelier}
          meaning="above 0 scale forms, below 0 pipes are eaten; near 0 neither for certain"
        />
        <IndexLine
          answer={langelierCalcite}
          meaning="the same by another method: the two differ by about 0.4"
        />
        <IndexLine answer={ryznar} meaning="above about 7 corrosive, below about 6 scale" />
        {sodiumAdsorption === null ? null : (
          <li>
            Sodium adsorption ratio {sodiumAdsorption.toFixed(1)}: for irrigation; the higher, the worse for
            clay soils.
          </li>
        )}
      </ul>
    </section>
  )
}

function IndexLine({ answer, meaning }: { answer: IndexAnswer | null; meaning: string }) {
  if (answer === null) return null
  return answer.kind === 'index' ? (
    <li>
      {answer.form}: {answer.value.toFixed(2)} ({meaning}; saturation pH {answer.saturationPh.toFixed(2)}).
    </li>
  ) : (
    <li>Cannot be reckoned: {answer.why}.</li>
  )
}

function TemperatureForm({ temperature, typed, unit }: Omit<Props, 'sample'>) {
  return (
    <form className="no-print">
      <div className={temperature.kind === 'problem' ? 'field field-wrong' : 'field'}>
        <label className="label" htmlFor="temp">
          Temperature of the water in the well
        </label>
        <span className="hint" id="temp-hint">
          The scale indices need it; it is not on the sheet.
        </span>
        {temperature.kind === 'problem' ? (
          <span className="error" id="temp-error">
            <span className="unseen">Error: </span>
            {temperature.message}
          </span>
        ) : null}
        <span className="row">
          <input
            className="input input-short"
            id="temp"
            name="temp"
            type="text"
            inputMode="decimal"
            defaultValue={typed}
            aria-describedby={temperature.kind === 'problem' ? 'temp-hint temp-error' : 'temp-hint'}
          />
          <span>{unit}</span>
          <button type="submit" className="button button-quiet">
            Reckon
          </button>
        </span>
      </div>
    </form>
  )
}
