import Link from 'next/link'
import type { OtherModel } from '@/lib/domain/logbook/part-models'
import { paths } from '@/lib/paths'
import { Status } from './status'

type Props = { found: readonly OtherModel[]; wellId: string; mayEdit: boolean }

/** That a part in place is not of the model with which the well is reckoned, and what to do; nothing where all agree. */
export function OtherModels({ found, wellId, mayEdit }: Props) {
  return found.map(({ kind, fitted, named }) => (
    <p className="text" key={kind}>
      <Status tone="watch">Two names for the {kind}:</Status> in place is {fitted}, and this well is reckoned
      with the model {named}.{' '}
      {mayEdit ? (
        <Link className="no-print" href={paths.wellEdit(wellId)} prefetch={false}>
          Name the right model on the well’s form
        </Link>
      ) : (
        'An installer names the right model on the well’s form.'
      )}
    </p>
  ))
}
