import encodeQR from 'qr'

/** A square code for a phone's camera, drawn on the server: dark on light in both themes, or no camera reads it. */
export function QrCode({ text, label }: { text: string; label: string }) {
  const { size, d } = qrPath(text)
  return (
    <svg
      className="qr"
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label={label}
      shapeRendering="crispEdges"
    >
      <rect className="qr-ground" width={size} height={size} />
      <path className="qr-dark" d={d} />
    </svg>
  )
}

/** Light modules around a code: ISO/IEC 18004 asks for four. */
const BORDER = 4

/**
 * A text as the dark squares of a QR code: the side in modules with its light border, and the path. A quarter of the
 * code may be scratched or muddy and it still reads.
 */
export function qrPath(text: string): { size: number; d: string } {
  const rows = encodeQR(text, 'raw', { ecc: 'quartile', border: BORDER })
  const d = rows.flatMap((row, y) => row.flatMap((dark, x) => (dark ? [`M${x} ${y}h1v1h-1z`] : []))).join('')
  return { size: rows.length, d }
}
