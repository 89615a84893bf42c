export type QrPath = { size: number; d: string }

/** A square code that was reckoned before: dark on light in both themes, or no camera reads it. */
export function QrPicture({ path, label }: { path: QrPath; label: string }) {
  const { size, d } = path
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
