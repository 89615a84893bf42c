'use client'

import { type FormEvent, useRef, useState } from 'react'

/** The phone's store is loaded when somebody leaves, and not with every page. */
const loadQueue = () => import('./queue')

/**
 * Stands on every page. Signing out takes everything of this person off the phone. What is not sent yet is said first, and can be saved as a
 * file. Without script there is nothing on the phone, and the form alone signs out.
 */
export function SignOut({ user }: { user: string }) {
  const form = useRef<HTMLFormElement>(null)
  const [unsent, setUnsent] = useState(0)

  const leave = async () => {
    try {
      await (await loadQueue()).wipe(user)
    } catch {
      // A browser that keeps nothing has nothing to remove.
    }
    form.current?.submit()
  }
  const submit = async (event: FormEvent) => {
    event.preventDefault()
    const own = await loadQueue()
      .then(({ countUnsent }) => countUnsent(user))
      .then(
        (counts) => counts.own,
        () => 0,
      )
    if (own > 0) setUnsent(own)
    else await leave()
  }
  const save = async () => {
    const { download, unsentFile } = await import('./export-file')
    download(await unsentFile(user, new Date()))
  }
  return (
    <form ref={form} className="sign-out" action="/sign-out" method="post" onSubmit={submit}>
      <button className="button button-plain" type="submit">
        Sign out
      </button>
      <div role="status">
        {unsent > 0 ? (
          <div className="sheet stack-tight">
            <p>
              <strong>
                {unsent} {unsent === 1 ? 'record is' : 'records are'} not sent yet.
              </strong>{' '}
              Signing out takes them off this phone.
            </p>
            <p className="row">
              <a className="button" href="/unsent">
                Look at them and send them
              </a>
              <button className="button button-quiet" type="button" onClick={save}>
                Save them as a file
              </button>
              <button className="button button-quiet" type="button" onClick={leave}>
                Delete them and sign out
              </button>
            </p>
          </div>
        ) : null}
      </div>
    </form>
  )
}
