import Link from 'next/link'
import { TEST_KINDS } from '@/lib/forms/test/draft'
import { TEST_WORDS } from '@/lib/forms/test/words'
import { paths } from '@/lib/paths'

/** The kinds of test with what each takes and tells, and the cautions that go before all of them. */
export function ChooseTest({ wellId }: { wellId: string }) {
  return (
    <>
      <ul className="plain-list stack">
        {TEST_KINDS.map((kind) => (
          <li key={kind} className="sheet stack-tight">
            <h2>{TEST_WORDS[kind].title}</h2>
            <p>{TEST_WORDS[kind].what}.</p>
            <p className="muted">{TEST_WORDS[kind].needs}</p>
            <p>
              <Link className="button" href={paths.newTest(wellId, kind)} prefetch={false}>
                Run a {TEST_WORDS[kind].title.toLowerCase()}
              </Link>
            </p>
          </li>
        ))}
      </ul>
      <p className="text muted">
        Open pits, wet ladders and electricity can kill. Switch off and lock the supply before reaching into
        the pit, never go down alone, and leave electrical work to those licensed for it; local codes come
        first.
      </p>
    </>
  )
}
