import { newId } from '@/lib/records/ids'
import { StepForm } from '../../_steps/step-form'
import { saveWater } from '../../actions'
import type { FormContext } from './steps'

/** What may happen beside the steps: the well is repaired, or a person ends the chain and says why. */
export function MoreSteps({
  wellId,
  chain,
  day,
  by,
  volumeUnit,
  mayClose,
}: FormContext & { mayClose: boolean }) {
  const given = { action: saveWater.bind(null, wellId, chain.key), day, by, volumeUnit }
  return (
    <section className="stack-tight no-print" aria-labelledby="beside">
      <h2 id="beside">Beside the steps</h2>
      <details className="section">
        <summary>The well itself was repaired</summary>
        <div className="section-body">
          <StepForm {...given} step="well-repaired" chain="" visitId={newId()} />
        </div>
      </details>
      <details className="section">
        <summary>Close without clear samples</summary>
        <div className="section-body">
          {mayClose ? (
            <>
              <p>
                Only clear samples show that the water changed. A chain that is closed by a person is told as
                such for ever, and the limits that were exceeded stay exceeded until a test says otherwise.
              </p>
              <StepForm
                {...given}
                step="chain-closed"
                chain={chain.key}
                visitId={newId()}
                initial={{ closedBy: by }}
              />
            </>
          ) : (
            <p>An installer can close it, with a name and a reason.</p>
          )}
        </div>
      </details>
    </section>
  )
}
