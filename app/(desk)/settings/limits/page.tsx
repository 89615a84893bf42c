import type { Metadata } from 'next'
import Link from 'next/link'
import { PageHead } from '@/app/ui/page-head'
import { demand, deskViewer } from '@/app/ui/session'
import { showDay } from '@/app/ui/show-day'
import { today } from '@/lib/clock'
import { ANALYTES, analyteName } from '@/lib/domain/water/analytes'
import { type LocalLimit, limitsOn, schemeTitle } from '@/lib/domain/water/schemes'
import { limitInHome } from '@/lib/domain/water/units'
import { type Params, textParam } from '@/lib/forms/list-filters'
import { limitKey, typedLimit } from '@/lib/forms/local-limit'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { reckonSettings } from '@/lib/records/reckon-settings'
import { removeLimit } from './actions'
import { LimitForm } from './limit-form'

export const metadata: Metadata = { title: 'Local limits' }

const DONE: Readonly<Record<string, string>> = {
  added: 'The limit is added. The wells are being reckoned anew.',
  changed: 'The limit is changed. The wells are being reckoned anew.',
  removed: 'The limit is removed. The wells are being reckoned anew.',
  gone: 'Nothing was removed: somebody changed this limit since the page was opened.',
}

/** Limits that the installer typed in: they win over the published ones of the same kind. */
export default async function LocalLimitsPage({ searchParams }: { searchParams: Promise<Params> }) {
  const viewer = await deskViewer()
  await demand(viewer, 'setting.edit')
  const { settings } = reckonSettings((await getDb()).sqlite)
  const { local, scheme } = settings.water
  const asked = await searchParams
  const change = local.find((limit) => limitKey(limit) === textParam(asked, 'change'))
  const done = DONE[textParam(asked, 'done')]
  return (
    <>
      <PageHead
        title="Local limits"
        lead={`A value typed in here wins over the limit of ${schemeTitle(scheme).name} for the same analyte and purpose. Every verdict names it, with its source.`}
      >
        <Link className="button button-quiet" href={paths.settings()} prefetch={false}>
          Back to the settings
        </Link>
      </PageHead>
      <div role="status" className={done ? 'done' : undefined}>
        {done ?? ''}
      </div>
      <section aria-labelledby="limits" className="stack">
        <h2 id="limits">In force here</h2>
        {local.length === 0 ? (
          <p className="muted">None: samples are judged by the published limits alone.</p>
        ) : null}
        <ul className="plain-list stack">
          {local.map((limit) => (
            <li key={limitKey(limit)} className="sheet stack-tight">
              <strong>{sayLimit(limit)}</strong>
              <span>
                Source: {limit.source} ({limit.date})
                {limit.from ? `; from ${showDay(limit.from, viewer.units)}` : ''}
                {limit.until ? `; until ${showDay(limit.until, viewer.units)}` : ''}
              </span>
              <Published limit={limit} scheme={scheme} />
              <div className="row">
                <Link
                  className="button button-quiet"
                  href={paths.localLimits({ change: limitKey(limit) })}
                  prefetch={false}
                >
                  Change<span className="unseen"> the limit for {analyteName(limit.analyte)}</span>
                </Link>
                <form action={removeLimit}>
                  <input type="hidden" name="was" value={limitKey(limit)} />
                  <button type="submit" className="button button-quiet">
                    Remove<span className="unseen"> the limit for {analyteName(limit.analyte)}</span>
                  </button>
                </form>
              </div>
            </li>
          ))}
        </ul>
      </section>
      <section className="sheet stack" aria-labelledby="limit">
        <h2 id="limit">{change ? 'Change a limit' : 'Add a limit'}</h2>
        <datalist id="analytes">
          {ANALYTES.map(({ id, name }) => (
            <option key={id} value={name} />
          ))}
        </datalist>
        <LimitForm
          key={change ? limitKey(change) : `new-${local.length}`}
          was={change ? limitKey(change) : ''}
          initial={change ? typedLimit(change) : {}}
        />
      </section>
    </>
  )
}

function sayLimit({ analyte, kind, max, min, unit }: LocalLimit): string {
  const least = min === undefined ? '' : `at least ${min}, `
  return `${analyteName(analyte)}: ${least}at most ${max} ${unit} (${kind})`
}

/** The published limit beside the local one, with a plain warning where the local one lets more pass. */
function Published({ limit, scheme }: { limit: LocalLimit; scheme: Parameters<typeof limitsOn>[0] }) {
  const sameClass = (kind: string) =>
    (kind === 'action' ? 'health' : kind) === (limit.kind === 'action' ? 'health' : limit.kind)
  const published = limitsOn(scheme, limit.analyte, today(), []).filter(({ row }) => sameClass(row.kind))
  const own = limitInHome(limit.analyte, limit.max, limit.unit)
  if (published.length === 0)
    return <span className="muted">{schemeTitle(scheme).name} has no limit of this kind for it.</span>
  return (
    <>
      {published.map(({ row, maxHome }) => (
        <span key={`${row.source}${row.max}${row.basis ?? ''}`} className={own > maxHome ? 'error' : 'muted'}>
          {own > maxHome ? 'Looser than the published limit: ' : 'In place of '}
          {row.max} {row.unit} ({row.source}, {row.date})
        </span>
      ))}
    </>
  )
}
