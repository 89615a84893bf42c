import Link from 'next/link'
import type { ReactNode } from 'react'

/** The rows of a list of wells in its frame, each cell under its heading, as cards on a phone. */
export function FleetTable({
  caption,
  heads,
  choose,
  children,
}: {
  caption: string
  heads: readonly string[]
  /** The first column holds boxes to tick. */
  choose?: boolean
  children: ReactNode
}) {
  return (
    <div className="table-frame">
      <table className="table table-cards due-table">
        <caption className="unseen">{caption}</caption>
        <thead>
          <tr>
            {choose ? (
              <th scope="col" className="no-print">
                <span className="unseen">Choose</span>
              </th>
            ) : null}
            {heads.map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  )
}

type Named = { label: string; wellName: string | null }

/** The well of a row: label with the way to it, name, and what else must be seen there. */
export function WellCell({ row, href, children }: { row: Named; href: string; children?: ReactNode }) {
  return (
    <th scope="row" className="pair">
      <Link href={href} prefetch={false}>
        {row.label}
      </Link>
      {row.wellName ? <span className="muted">{row.wellName}</span> : null}
      {children}
    </th>
  )
}

/** Where it lies and whose it is; what is unknown leaves no empty line on a card. */
export function WhereCells({ row }: { row: { area: string | null; ownerName: string | null } }) {
  return (
    <>
      <td data-label={row.area ? 'Area' : undefined}>{row.area}</td>
      <td data-label={row.ownerName ? 'Owner' : undefined}>{row.ownerName}</td>
    </>
  )
}
