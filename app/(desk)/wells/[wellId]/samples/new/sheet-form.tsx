'use client'

import { useSending } from '@/app/ui/use-sending'
import { SheetFields, type SheetFieldsProps } from './sheet-fields'
import type { SheetState } from './sheet-state'

type Props = SheetFieldsProps & {
  action: (before: SheetState, form: FormData) => Promise<SheetState>
}

/** The sheet form with signal. Where the signal fails it stays as it is, and its page opens without signal with what was typed. */
export function SheetForm({ action, ...props }: Props) {
  const sending = useSending(action, undefined, true)
  return <SheetFields {...props} sending={sending} />
}
