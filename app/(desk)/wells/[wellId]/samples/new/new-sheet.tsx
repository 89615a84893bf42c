import type { Viewer } from '@/lib/access/viewer'
import { unitSymbols } from '@/lib/domain/quantity'
import { unitLists } from '@/lib/forms/sheet/units'
import { newId } from '@/lib/records/ids'
import { SheetForm } from './sheet-form'
import { SheetLists } from './sheet-lists'
import type { SheetState } from './sheet-state'

type Props = {
  action: (before: SheetState, form: FormData) => Promise<SheetState>
  wellId: string
  viewer: Viewer
}

/** An empty lab sheet with its lists, for the desk and for households. */
export function NewSheet({ action, wellId, viewer }: Props) {
  const { lists, of } = unitLists()
  return (
    <>
      <SheetLists lists={lists} />
      <SheetForm
        action={action}
        draftKey={`sheet-${wellId}`}
        visitId={newId()}
        by={viewer.name}
        temperatureUnit={unitSymbols(viewer.units).temperature}
        unitListOf={of}
        household={viewer.role === 'owner'}
      />
    </>
  )
}
