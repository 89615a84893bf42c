import type { Asking } from '@/app/ui/with-questions'
import type { RowView } from '@/lib/forms/sheet/row-reading'

/** The state of a sheet form; `views` say how each row reads, by its number from 1. */
export type SheetState = Asking & { views?: Record<number, RowView> }
