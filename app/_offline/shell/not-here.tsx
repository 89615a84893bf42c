import { useEffect, useState } from 'react'
import { words } from '../take-along'
import { type TakenLine, takenList } from '../taken'

/** Said where a page is not on the phone, with what is: a place to go on from, not an error. */
export function NotHere({ user, what = 'This page' }: { user: string; what?: string }) {
  const [taken, setTaken] = useState<TakenLine[]>([])
  useEffect(() => {
    document.title = 'No signal – Wellround'
    void takenList(user, Date.now()).then(setTaken)
  }, [user])
  return (
    <>
      <h1>No signal</h1>
      <p className="text">
        {what} is not on this phone. It opens again when there is signal. What you have written and not sent
        is kept: <a href="/unsent">see what is on this phone</a>.
      </p>
      {taken.length > 0 ? (
        <>
          <h2>Taken along</h2>
          <ul>
            {taken.map(({ key, label, takenAt }) => (
              <li key={key}>
                <a href={`/${key.replace(':', 's/')}`}>{label}</a>, last updated {words(takenAt)}
              </li>
            ))}
          </ul>
        </>
      ) : (
        <p className="text">
          Nothing was taken along in the last seven days. While there is signal, open a round or a well and
          press “Take this with you”.
        </p>
      )}
    </>
  )
}
