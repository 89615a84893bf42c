import { Field, type FieldProps } from './field'

type Props = Pick<FieldProps, 'state' | 'prefix'> & Partial<Pick<FieldProps, 'name' | 'label' | 'hint'>>

/** The address that a person signs in with, where they make their own account. */
export function EmailField({ state }: Pick<Props, 'state'>) {
  return (
    <Field
      state={state}
      name="email"
      label="Email address"
      hint="You sign in with it"
      type="email"
      autoComplete="username"
      spellCheck={false}
    />
  )
}

/** A password that is new to its account. `hint` is said after how long it must be. */
export function NewPasswordField({ name = 'password', label = 'Password', hint, ...rest }: Props) {
  return (
    <Field
      {...rest}
      name={name}
      label={label}
      hint={`12 characters or more${hint ? `. ${hint}` : '; a few words in a row do well'}`}
      type="password"
      autoComplete="new-password"
    />
  )
}
