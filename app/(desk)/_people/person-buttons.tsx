import type { Role } from '@/lib/access/viewer'
import { changeRole, signOutEverywhere } from './actions'

type Props = { person: { id: string; name: string; role: Role } }

/** What an installer does to somebody's account besides shutting it out. */
export function PersonButtons({ person }: Props) {
  return (
    <>
      <form action={signOutEverywhere}>
        <input type="hidden" name="id" value={person.id} />
        <button type="submit" className="button button-quiet">
          Sign out everywhere<span className="unseen">: {person.name}</span>
        </button>
      </form>
      {person.role === 'owner' ? null : <RoleButton person={person} />}
    </>
  )
}

function RoleButton({ person }: Props) {
  const other = person.role === 'installer' ? 'technician' : 'installer'
  return (
    <form action={changeRole}>
      <input type="hidden" name="id" value={person.id} />
      <input type="hidden" name="role" value={other} />
      <button type="submit" className="button button-quiet">
        Make {other}
        <span className="unseen">: {person.name}</span>
      </button>
    </form>
  )
}
