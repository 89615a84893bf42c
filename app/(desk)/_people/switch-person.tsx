import { switchPerson } from './actions'

/** The button that shuts a person out, or lets them in again. */
export function SwitchPerson({ person }: { person: { id: string; name: string; disabled: boolean } }) {
  return (
    <form action={switchPerson} className="row">
      <input type="hidden" name="id" value={person.id} />
      <input type="hidden" name="to" value={person.disabled ? 'in' : 'out'} />
      <button type="submit" className="button button-quiet">
        {person.disabled ? 'Let in again' : 'Shut out'}
        <span className="unseen">: {person.name}</span>
      </button>
    </form>
  )
}
