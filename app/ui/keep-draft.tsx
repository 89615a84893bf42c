'use client'

import { useEffect, useState } from 'react'

/** Everything this browser keeps of half-filled forms starts so; signing out removes it all. */
export const DRAFT_PREFIX = 'wellround-draft:'

/** Fields that belong to one opening of a form, or to nobody's typing. */
const NEVER_KEPT = (name: string) => name === '' || name === 'visitId' || name.startsWith('$')

/**
 * Keeps what is typed into a form in this browser, so that a reload, a flat battery or a lost
 * connection costs nothing, and puts it back when the form is opened again. The draft goes when
 * the form was accepted (the page after saving removes it) or when it is thrown away here.
 */
export function KeepDraft({ formId, storageKey }: { formId: string; storageKey: string }) {
  const [restored, setRestored] = useState(false)

  useEffect(() => {
    const form = document.getElementById(formId)
    if (!(form instanceof HTMLFormElement)) return
    const key = DRAFT_PREFIX + storageKey
    const keep = () => write(key, form)
    const early = typedEarly(form)
    setRestored(fill(form, readDraft(storageKey), early))
    if (early.size > 0) keep()
    form.addEventListener('input', keep)
    return () => form.removeEventListener('input', keep)
  }, [formId, storageKey])

  const discard = () => {
    localStorage.removeItem(DRAFT_PREFIX + storageKey)
    location.reload()
  }
  return (
    <div role="status">
      {restored ? (
        <p className="done">
          What you typed earlier on this device was put back.{' '}
          <button type="button" className="button button-quiet" onClick={discard}>
            Throw it away
          </button>
        </p>
      ) : null}
    </div>
  )
}

/** What this browser keeps of a half-filled form, by field; empty where nothing is kept. */
export function readDraft(storageKey: string): Record<string, string> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(DRAFT_PREFIX + storageKey) ?? '{}')
    if (typeof kept !== 'object' || kept === null) return {}
    return Object.fromEntries(
      Object.entries(kept).filter((pair): pair is [string, string] => typeof pair[1] === 'string'),
    )
  } catch {
    // A draft that cannot be read (storage switched off, or cut short) is no draft.
    return {}
  }
}

function write(key: string, form: HTMLFormElement): void {
  const typed = Object.fromEntries(
    [...new FormData(form)].filter(
      (pair): pair is [string, string] =>
        !NEVER_KEPT(pair[0]) && typeof pair[1] === 'string' && pair[1] !== '',
    ),
  )
  try {
    localStorage.setItem(key, JSON.stringify(typed))
  } catch {
    // A full or forbidden storage: the form still works, it is only not kept. Nothing claims that it is.
  }
}

/** Fields that hold something else than the page came with: somebody was faster than the script on a slow phone. */
function typedEarly(form: HTMLFormElement): ReadonlySet<string> {
  const early = new Set<string>()
  for (const field of form.elements) if (isTouched(field) && 'name' in field) early.add(String(field.name))
  return early
}

function isTouched(field: Element): boolean {
  if (field instanceof HTMLTextAreaElement) return field.value !== field.defaultValue
  if (field instanceof HTMLSelectElement) {
    const options = [...field.options]
    const came = options.find((option) => option.defaultSelected) ?? options[0]
    return came !== undefined && field.value !== came.value
  }
  if (!(field instanceof HTMLInputElement) || field.type === 'hidden') return false
  if (field.type === 'checkbox' || field.type === 'radio') return field.checked !== field.defaultChecked
  return field.value !== field.defaultValue
}

/** Puts kept values into the fields that nobody has touched on this opening; true when any was changed. */
function fill(form: HTMLFormElement, kept: Record<string, string>, early: ReadonlySet<string>): boolean {
  let changed = false
  for (const field of form.elements) {
    if ('name' in field && early.has(String(field.name))) continue
    if (field instanceof HTMLInputElement && (field.type === 'checkbox' || field.type === 'radio')) {
      const want = kept[field.name] === field.value
      if (want && !field.checked) {
        field.checked = true
        changed = true
        reveal(field)
      }
    } else if (
      field instanceof HTMLInputElement ||
      field instanceof HTMLTextAreaElement ||
      field instanceof HTMLSelectElement
    ) {
      const value = kept[field.name]
      if (NEVER_KEPT(field.name) || value === undefined || value === field.value) continue
      field.value = value
      changed = true
      reveal(field)
    }
  }
  return changed
}

function reveal(field: Element): void {
  const section = field.closest('details')
  if (section) section.open = true
}
