import type { Metadata } from 'next'
import Link from 'next/link'
import type { ReactNode } from 'react'
import { EmptyState } from '@/app/ui/empty-state'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { TableFrame } from '@/app/ui/table-frame'
import { formatQuantity, type UnitSystem, type Use } from '@/lib/domain/quantity'
import { paths } from '@/lib/paths'
import { type CartridgeModelRow, type Counted, models, type PumpModelRow } from '@/lib/records/models'
import { getDb } from '@/lib/records/open'

export const metadata: Metadata = { title: 'Pump and cartridge models' }

/** What the outfit fits: each model once, with what its sheet says; wells name it. */
export default async function ModelsPage() {
  const viewer = await deskViewer()
  await demand(viewer, 'well.edit')
  const { pumps, cartridges } = models(await getDb(), viewer)
  const { units } = viewer
  return (
    <>
      <PageHead
        title="Pump and cartridge models"
        lead="What their sheets say is written here once and counts for every well that names the model: the least brush length, the terminal drop, the suction head that the pump asks for."
      >
        <Link className="button button-quiet" href={paths.wells()} prefetch={false}>
          To the wells
        </Link>
      </PageHead>
      <Group title="Pumps" kind="pump" empty={pumps.length === 0}>
        <PumpTable rows={pumps} units={units} />
      </Group>
      <Group title="Cartridges" kind="cartridge" empty={cartridges.length === 0}>
        <CartridgeTable rows={cartridges} units={units} />
      </Group>
    </>
  )
}

type GroupProps = { title: string; kind: 'pump' | 'cartridge'; empty: boolean; children: ReactNode }

function Group({ title, kind, empty, children }: GroupProps) {
  return (
    <section className="stack" aria-labelledby={kind}>
      <div className="group-head">
        <h2 id={kind}>{title}</h2>
        <Link className="button" href={paths.newModel(kind)} prefetch={false}>
          Add a {kind} model
        </Link>
      </div>
      {empty ? (
        <EmptyState title={`No ${kind} model yet`}>
          <p>
            Add the models that you fit. Then name them on a well’s form, or choose wells in the list and set
            them up alike in one step.
          </p>
        </EmptyState>
      ) : (
        <TableFrame label={title}>{children}</TableFrame>
      )}
    </section>
  )
}

const shown = (si: number | null, use: Use, units: UnitSystem): string =>
  si === null ? 'not known' : formatQuantity(si, use, units)

const months = (count: number | null): string =>
  count === null ? 'not known' : count === 1 ? '1 month' : `${count} months`

const WORKS: Record<string, string> = {
  centrifugal: 'centrifugal or jet',
  displacement: 'diaphragm or piston',
  sun: 'panels alone',
  mains: 'mains or battery',
}

function PumpTable({ rows, units }: { rows: readonly Counted<PumpModelRow>[]; units: UnitSystem }) {
  return (
    <table className="table table-cards">
      <thead>
        <tr>
          <th scope="col">Model</th>
          <th scope="col">How it works</th>
          <th scope="col">Driven by</th>
          <th scope="col">Brush, new and least</th>
          <th scope="col">Suction head asked for</th>
          <th scope="col">Warranty</th>
          <th scope="col">Wells</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.id}>
            <th scope="row">
              <Name kind="pump" row={row} />
            </th>
            <td data-label="How it works">{WORKS[row.type ?? ''] ?? 'not known'}</td>
            <td data-label="Driven by">{WORKS[row.power ?? ''] ?? 'not known'}</td>
            <td data-label="Brush, new and least">
              {row.brushNewM === null && row.brushMinimumM === null
                ? 'not known'
                : `${shown(row.brushNewM, 'brush', units)}, ${shown(row.brushMinimumM, 'brush', units)}`}
            </td>
            <td data-label="Suction head asked for">{shown(row.npshRequiredM, 'lift', units)}</td>
            <td data-label="Warranty">{months(row.warrantyMonths)}</td>
            <td data-label="Wells">{row.wells}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function CartridgeTable({ rows, units }: { rows: readonly Counted<CartridgeModelRow>[]; units: UnitSystem }) {
  return (
    <table className="table table-cards">
      <thead>
        <tr>
          <th scope="col">Model</th>
          <th scope="col">Terminal drop</th>
          <th scope="col">At a flow of</th>
          <th scope="col">O-ring</th>
          <th scope="col">Warranty</th>
          <th scope="col">Wells</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.id}>
            <th scope="row">
              <Name kind="cartridge" row={row} />
            </th>
            <td data-label="Terminal drop">{shown(row.terminalDropPa, 'pressure', units)}</td>
            <td data-label="At a flow of">{shown(row.referenceFlowM3PerS, 'flow', units)}</td>
            <td data-label="O-ring">{row.oRing ?? 'not known'}</td>
            <td data-label="Warranty">{months(row.warrantyMonths)}</td>
            <td data-label="Wells">{row.wells}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

type NameProps = { kind: 'pump' | 'cartridge'; row: { id: string; name: string; retired: boolean } }

function Name({ kind, row }: NameProps) {
  return (
    <>
      <Link href={paths.model(kind, row.id)} prefetch={false}>
        {row.name}
      </Link>
      {row.retired ? <span className="muted"> (no longer fitted)</span> : null}
    </>
  )
}
