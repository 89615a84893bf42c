import { SelectField } from '@/app/ui/field'
import { slug } from '@/lib/domain/upkeep/keys'
import { DUTY_LIBRARY } from '@/lib/domain/upkeep/library'
import { templateOfKey } from '@/lib/forms/duty-form'

type Props = { action: string; chosen: string; keep?: readonly { name: string; value: string }[] }

/** Starts the form of a duty from the library, with the source of its limits. A plain form: it makes an address. */
export function LibraryChoice({ action, chosen, keep = [] }: Props) {
  const template = templateOfKey(chosen)
  return (
    <form className="form form-tight" action={action} method="get">
      {keep.map(({ name, value }) => (
        <input key={`${name}=${value}`} type="hidden" name={name} value={value} />
      ))}
      <SelectField
        state={{ typed: { template: chosen }, errors: {} }}
        name="template"
        label="Start from the library"
        hint="Fills in the form below; every limit can be changed"
        options={[
          { value: '', label: 'An own duty' },
          ...DUTY_LIBRARY.map(({ name }) => ({ value: slug(name), label: name })),
        ]}
      />
      <div className="row">
        <button className="button button-quiet" type="submit">
          Fill in the form
        </button>
      </div>
      {template ? (
        <p className="text">
          <span className="muted">Where these limits come from: </span>
          {template.basisNote}
        </p>
      ) : null}
    </form>
  )
}
