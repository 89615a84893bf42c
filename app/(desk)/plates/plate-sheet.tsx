import { QrCode } from '@/app/ui/qr-code'
import { plateAddress, type WellPlate } from '@/lib/records/plates'

type Props = { plates: readonly WellPlate[]; kind: 'lid' | 'pump'; text: 'label' | 'none' }

/** The plates as they are printed and cut out: a square for the lid, a card for the pump. */
export function PlateSheet({ plates, kind, text }: Props) {
  const made = plates.flatMap(({ code, ...well }) => (code === null ? [] : [{ ...well, code }]))
  if (made.length === 0) return null
  return (
    <ul className="plates" aria-label="Plates">
      {made.map(({ wellId, label, code }) => (
        <li key={wellId} className={`plate plate-${kind}`}>
          <QrCode text={plateAddress(code)} label={`Code of ${label}`} />
          {kind === 'pump' || text === 'label' ? (
            <div>
              {text === 'label' ? <p className="plate-label">{label}</p> : null}
              {kind === 'pump' ? <p>Scan to open the record of this pump’s well. Sign-in needed.</p> : null}
            </div>
          ) : null}
        </li>
      ))}
    </ul>
  )
}
