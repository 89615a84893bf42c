import type { Kept } from './use-test-draft'

/**
 * Whether the test is on the disk of this device. A refusal is told at once; that all is well is not told again with
 * each letter typed.
 */
export function KeptWords({ kept, begun }: { kept: Kept; begun: boolean }) {
  return (
    <div>
      <p className="small">
        {kept === 'yes' ? 'Kept on this device.' : ''}
        {kept === 'writing' ? 'Keeping it …' : ''}
        {kept === 'no' && !begun ? 'Nothing to keep yet.' : ''}
      </p>
      <div className="small" role="status">
        {kept === 'no' && begun ? NOT_KEPT : ''}
      </div>
    </div>
  )
}

const NOT_KEPT =
  'This device refuses to keep the readings: do not close or reload this page, and note them on paper too.'
