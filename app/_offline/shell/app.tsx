import { type ReactNode, useEffect, useState } from 'react'
import { PhoneMark } from '../phone-mark'
import { storageRefusal } from '../store'
import { whoIsHere } from '../who'
import { pageFor } from './pages'

/** The frame of every page that the phone shows by itself, and the page. */
export function App({ path, query }: { path: string; query: URLSearchParams }) {
  const [page, setPage] = useState<ReactNode>(<p>Looking at what is on this phone …</p>)
  useEffect(() => {
    const find = async () => {
      const who = await whoIsHere()
      return who === null ? <Nobody /> : pageFor(who, path, query)
    }
    find().then(setPage, (error: unknown) => {
      console.error(error)
      setPage(<p>{storageRefusal(error).replace(/^Not saved: /, 'Nothing can be shown here: ')}</p>)
    })
  }, [path, query])
  return (
    <>
      <header className="top">
        <div className="top-inside">
          <a className="brand" href="/">
            Wellround
          </a>
          <nav aria-label="Main">
            <ul className="places">
              <li>
                <a href="/">Due</a>
              </li>
              <li>
                <a href="/unsent" aria-current={path === '/unsent' ? 'page' : undefined}>
                  On this phone
                </a>
              </li>
            </ul>
          </nav>
          <PhoneMark who={null} register={false} />
        </div>
      </header>
      <main id="content" className="page" tabIndex={-1}>
        {page}
      </main>
    </>
  )
}

function Nobody() {
  return (
    <>
      <h1>Nobody is signed in on this phone</h1>
      <p className="text">
        When there is signal, <a href="/sign-in">sign in</a>. What you wrote here while signed in is kept
        until then.
      </p>
    </>
  )
}
