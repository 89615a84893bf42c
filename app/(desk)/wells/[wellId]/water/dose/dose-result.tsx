import { formatNumber, formatQuantity, type UnitSystem } from '@/lib/domain/quantity'
import type { DoseAnswer } from '@/lib/domain/water/disinfect'

type Dose = Extract<DoseAnswer, { kind: 'dose' }>

const PARTS: Record<Dose['byPart'][number]['part'], string> = {
  casingM3: 'Casing',
  gravelM3: 'Gravel pores',
  dropPipeM3: 'Drop pipe',
  linesM3: 'Lines to the taps',
  tankM3: 'Tank',
}

/** The amount to put in, whole and part by part. */
export function DoseResult({
  answer,
  tablets,
  units,
}: {
  answer: Dose
  tablets: number | null
  units: UnitSystem
}) {
  const { volumes, product, byPart, hypochlorousShare, warnings } = answer
  return (
    <section className="sheet" aria-labelledby="dose">
      <h2 id="dose">The dose</h2>
      <p className="standing-said">
        <strong>{amountWords(product.amount, product.unit)}</strong> of the product
        {tablets === null ? '' : `, that is ${tablets} ${tablets === 1 ? 'tablet' : 'tablets'}`}
      </p>
      <p>
        For {formatQuantity(volumes.totalM3, 'volume', units)} of water in all; it holds{' '}
        {formatNumber(answer.availableChlorineG, 0, 1)} g of chlorine. Let it stand {answer.contactHours}{' '}
        hours.
      </p>
      <p>
        {hypochlorousShare === null
          ? 'How much of the chlorine works depends on the pH, which was not entered.'
          : `At this pH ${Math.round(100 * hypochlorousShare)} % of the chlorine is hypochlorous acid, the part that kills (at 25 °C).`}
      </p>
      {warnings.length > 0 ? (
        <div className="cautions">
          {warnings.map((warning) => (
            <p key={warning}>{warning}</p>
          ))}
        </div>
      ) : null}
      <div className="table-frame">
        <table className="table">
          <caption className="unseen">The dose part by part</caption>
          <thead>
            <tr>
              <th scope="col">Where</th>
              <th scope="col">Water</th>
              <th scope="col">Product</th>
            </tr>
          </thead>
          <tbody>
            {byPart.map(({ part, amount }) => (
              <tr key={part}>
                <th scope="row">{PARTS[part]}</th>
                <td>{formatQuantity(volumes[part], 'volume', units)}</td>
                <td>{amountWords(amount, product.unit)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </section>
  )
}

/** US cup and gallon, US ounce by weight. */
const ML_PER_CUP = 236.588
const ML_PER_GALLON = 3785.41
const G_PER_OUNCE = 28.3495

function amountWords(amount: number, unit: 'mL' | 'g'): string {
  if (unit === 'g')
    return `${formatNumber(amount, 0, amount < 10 ? 1 : 0)} g (${formatNumber(amount / G_PER_OUNCE, 0, 1)} oz)`
  const cups = amount / ML_PER_CUP
  const us =
    amount >= ML_PER_GALLON
      ? `${formatNumber(amount / ML_PER_GALLON, 0, 2)} US gallons`
      : `${formatNumber(cups, 0, cups < 1 ? 2 : 1)} US cups`
  const metric =
    amount >= 1000 ? `${formatNumber(amount / 1000, 0, 2)} L` : `${formatNumber(amount, 0, 0)} mL`
  return `${metric} (${us})`
}
