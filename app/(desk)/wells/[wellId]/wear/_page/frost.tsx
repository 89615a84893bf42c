import { Status, type Tone } from '@/app/ui/status'
import type { Equipment } from '@/lib/domain/logbook/equipment'
import { type FreezeNote, freezeNote } from '@/lib/domain/pump'
import { formatQuantity, type UnitSystem } from '@/lib/domain/quantity'

const WORDS: Record<FreezeNote['kind'], { tone: Tone; word: string }> = {
  below: { tone: 'note', word: 'Under the frost' },
  close: { tone: 'watch', word: 'Just under the frost' },
  above: { tone: 'alarm', word: 'Within the frost' },
  'cannot-say': { tone: 'unsure', word: 'Cannot say' },
}

/** Whether the buried outlet lies under the frost: a note, never a promise. */
export function Frost({ equipment, units }: { equipment: Equipment; units: UnitSystem }) {
  const { outletDepthM, frostDepthM } = equipment
  const note = freezeNote(outletDepthM, frostDepthM)
  const { tone, word } = WORDS[note.kind]
  const known = outletDepthM !== null && frostDepthM !== null
  return (
    <section aria-labelledby="frost" className="stack-tight">
      <h2 id="frost">Frost</h2>
      <p>
        <Status tone={tone}>{word}</Status>
      </p>
      <p className="text">
        {note.says}
        {known
          ? ` Outlet ${formatQuantity(outletDepthM, 'depth', units)} down, frost ${formatQuantity(frostDepthM, 'depth', units)}.`
          : ' Enter it on the well’s form.'}
      </p>
      <p className="muted text">
        Bare, wet or trodden ground freezes deeper than the number says: the local code and the soil decide.
      </p>
    </section>
  )
}
