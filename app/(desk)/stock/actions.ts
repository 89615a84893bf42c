'use server'

import { revalidatePath } from 'next/cache'
import { notFound, redirect } from 'next/navigation'
import { deskViewer } from '@/app/ui/session'
import { now, today } from '@/lib/clock'
import { type FormState, parseForm, typedFields } from '@/lib/forms/form'
import { clash, type RegisterState } from '@/lib/forms/register-state'
import { stockMoveForm, stockRuleForm } from '@/lib/forms/stock-form'
import { paths } from '@/lib/paths'
import { getDb } from '@/lib/records/open'
import { moveStock, setStockRule } from '@/lib/records/stock-moves'

/** Writes one line of the stock book; its item is made with its first line. */
export async function writeMove(_before: FormState, form: FormData): Promise<FormState> {
  const viewer = await deskViewer()
  const day = today()
  const parsed = parseForm(stockMoveForm(day), form)
  if (!parsed.ok) return parsed.state
  const { moveId, on, ...move } = parsed.value
  const { itemId } = await moveStock(
    await getDb(),
    viewer,
    { ...move, id: moveId, on: on ?? day },
    now(),
    day,
  )
  revalidatePath('/', 'layout')
  redirect(paths.stockItem(itemId, { saved: move.kind }))
}

/** Sets when an item is ordered and up to how many; blank takes the rule away. */
export async function saveRule(
  itemId: string,
  _before: RegisterState,
  form: FormData,
): Promise<RegisterState> {
  const viewer = await deskViewer()
  const typed = typedFields(form)
  const parsed = stockRuleForm.safeParse({ reorderAt: typed.reorderAt ?? '', upTo: typed.upTo ?? '' })
  if (!parsed.success) {
    const errors: Record<string, string> = {}
    for (const issue of parsed.error.issues) errors[String(issue.path[0] ?? '')] ??= issue.message
    return { typed, errors }
  }
  const outcome = await setStockRule(await getDb(), viewer, itemId, Number(typed.version), parsed.data, now())
  if (outcome.kind === 'no-such-item') notFound()
  if (outcome.kind === 'changed-since') {
    const { reorderAt, upTo, version } = outcome.current
    return clash(typed, { reorderAt: String(reorderAt ?? ''), upTo: String(upTo ?? '') }, version)
  }
  revalidatePath('/', 'layout')
  redirect(paths.stockItem(itemId, { saved: 'rule' }))
}
