import { type FieldProps, SelectField } from '@/app/ui/field'

type Props = Pick<FieldProps, 'state' | 'initial' | 'prefix'> & {
  people: readonly { id: string; name: string }[]
}

/** Who drives a round; nobody may be named yet. */
export function DriverField({ people, ...props }: Props) {
  return (
    <SelectField
      {...props}
      name="person"
      label="Who drives"
      options={[
        { value: '', label: 'nobody named yet' },
        ...people.map(({ id, name }) => ({ value: id, label: name })),
      ]}
    />
  )
}
