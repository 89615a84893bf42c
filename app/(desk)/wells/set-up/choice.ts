import { slug } from '@/lib/domain/upkeep/keys'
import { DUTY_LIBRARY, dutyFromTemplate } from '@/lib/domain/upkeep/library'
import { listParam, type Params, textParam } from '@/lib/forms/list-filters'
import type { DutyFields } from '@/lib/records/duty-fields'
import type { SetUpChoice } from '@/lib/records/set-up'

/** What an address or a form says to give the wells; unknown duties are left out. */
export function choiceOf(params: Params): SetUpChoice {
  return {
    pumpModelId: textParam(params, 'pump') || null,
    cartridgeModelId: textParam(params, 'cartridge') || null,
    duties: listParam(params, 'duty').flatMap((key) => dutyOfKey(key) ?? []),
  }
}

function dutyOfKey(key: string): DutyFields | null {
  const template = DUTY_LIBRARY.find(({ name }) => slug(name) === key)
  if (!template) return null
  const { condition, ...duty } = dutyFromTemplate(template)
  return {
    ...duty,
    condition: condition?.kind ?? null,
    conditionLimitSi: condition?.limitSi ?? null,
    typed: {},
  }
}
