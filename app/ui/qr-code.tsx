import encodeQR from 'qr'
import { type QrPath, QrPicture } from './qr-picture'

/** A square code for a phone's camera, reckoned and drawn on the server. */
export function QrCode({ text, label }: { text: string; label: string }) {
  return <QrPicture path={qrPath(text)} label={label} />
}

/** Light modules around a code: ISO/IEC 18004 asks for four. */
const BORDER = 4

/**
 * A text as the dark squares of a QR code: the side in modules with its light border, and the path. A quarter of the
 * code may be scratched or muddy and it still reads.
 */
export function qrPath(text: string): QrPath {
  const rows = encodeQR(text, 'raw', { ecc: 'quartile', border: BORDER })
  const d = rows.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : []))).join('')
  return { size: rows.length, d }
}
