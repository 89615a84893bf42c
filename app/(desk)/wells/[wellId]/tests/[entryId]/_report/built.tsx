import type { FillingArea } from '@/lib/domain/logbook/well-section'
import { formatQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'
import type { TestReport } from '@/lib/records/well-tests'

type Props = { well: TestReport['well']; area: FillingArea; units: UnitSystem }

/** The well as built, as far as a test rests on it. */
export function BuiltSection({ well, area, units }: Props) {
  const show = (si: number | null, use: Use) => (si === null ? 'not known' : formatQuantity(si, use, units))
  const pit =
    well.pitDiameterM !== null
      ? `round, ${show(well.pitDiameterM, 'distance')} across`
      : well.pitLengthM !== null && well.pitWidthM !== null
        ? `${show(well.pitLengthM, 'distance')} by ${show(well.pitWidthM, 'distance')}`
        : 'not known'
  const rows = [
    ['Depth of the well', show(well.wellDepthM, 'depth')],
    ['Depth of the intake', show(well.intakeDepthM, 'depth')],
    ['Casing bore', show(well.casingBoreM, 'bore')],
    ['Casing outside', show(well.casingOutsideM, 'bore')],
    ['Pit', pit],
    ['Porosity of the gravel', show(well.gravelPorosity, 'share')],
  ] as const
  return (
    <section aria-labelledby="built" className="stack-tight">
      <h2 id="built">The well as built</h2>
      <dl className="figures">
        {rows.map(([what, value]) => (
          <div key={what}>
            <dt>{what}</dt>
            <dd>{value}</dd>
          </div>
        ))}
        <div>
          <dt>Area that fills when the water rises</dt>
          <dd>
            {area.kind === 'area'
              ? `${formatQuantity(area.areaM2, 'area', units)}: ${formatQuantity(area.casingM2, 'area', units)} in the casing and ${formatQuantity(area.gravelM2, 'area', units)} in the pores of the gravel`
              : 'cannot be said'}
          </dd>
        </div>
      </dl>
      {area.kind === 'cannot-say' ? <p className="small text">{area.message}</p> : null}
    </section>
  )
}
