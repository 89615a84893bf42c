import Link from 'next/link'
import type { ReactNode } from 'react'
import type { FormState } from '@/lib/forms/form'
import { type Option, SelectField } from './field'

type Choice = { state: FormState; name: string; label: string; options: readonly Option[]; any?: string }

/** One of many, or any of them. */
export function AnyOf({ any = 'Any', options, ...field }: Choice) {
  return <SelectField {...field} options={[{ value: '', label: any }, ...options]} />
}

/** The area in which a well lies, or any. */
export function AreaField({ areas, ...field }: Pick<Choice, 'state' | 'any'> & { areas: readonly string[] }) {
  return (
    <AnyOf
      {...field}
      name="area"
      label="Area"
      options={areas.map((area) => ({ value: area, label: area }))}
    />
  )
}

/** Whose well it is, or anybody's. */
export function OwnerField({
  owners,
  state,
}: {
  owners: readonly { id: string; name: string }[]
  state: FormState
}) {
  return (
    <AnyOf
      state={state}
      name="owner"
      label="Owner"
      options={owners.map(({ id, name }) => ({ value: id, label: name }))}
    />
  )
}

/** The button of a filter and, where it is on, the way back to everything. */
export function FilterButtons({ go, all, on, home }: { go: string; all: string; on: boolean; home: string }) {
  return (
    <div className="row">
      <button className="button" type="submit">
        {go}
      </button>
      {on ? (
        <Link href={home} prefetch={false}>
          {all}
        </Link>
      ) : null}
    </div>
  )
}

type Folded = {
  /** The address of the list. */
  home: string
  /** What can be asked for, said while nothing is. */
  summary: string
  on: boolean
  wrong?: boolean
  /** The group of the list that is shown alone. */
  group?: string | null
  children: ReactNode
}

/** The filter of a list, folded away until it is on: a plain form that makes an address, to be kept and sent on. */
export function FoldedFilter({ home, summary, on, wrong = false, group = null, children }: Folded) {
  return (
    <details className="no-print" open={on || wrong}>
      <summary>{on ? 'Filter (on)' : summary}</summary>
      <form className="stack" action={home} method="get">
        {group === null ? null : <input type="hidden" name="group" value={group} />}
        <div className="fields">{children}</div>
        <FilterButtons go="Filter" all="Clear the filter" on={on} home={home} />
      </form>
    </details>
  )
}
