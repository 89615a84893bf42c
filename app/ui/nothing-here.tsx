import Link from 'next/link'
import { PageHead } from './page-head'

/** The page for what is absent or not for this person: the two look the same on purpose. */
export function NothingHere() {
  return (
    <>
      <PageHead title="There is nothing here" />
      <p>The address may be mistyped, or what stood here is not for your account.</p>
      <p>
        <Link href="/" prefetch={false}>
          Go to the front page
        </Link>
      </p>
    </>
  )
}
