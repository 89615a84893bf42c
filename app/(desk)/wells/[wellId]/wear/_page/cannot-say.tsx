import { Status } from '@/app/ui/status'
import { sentence } from '@/lib/domain/logbook/wear-words'

/** Why nothing can be said, and what to enter so that something can. */
export function CannotSay({ why, enter }: { why: string; enter: string }) {
  return (
    <>
      <p>
        <Status tone="unsure">Cannot say</Status>
      </p>
      <p className="text">
        {sentence(why)} To change that: {enter}.
      </p>
    </>
  )
}
