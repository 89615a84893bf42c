'use client'

import Link from 'next/link'
import { usePathname } from 'next/navigation'

export type Place = { href: string; word: string; aside?: boolean }

/** The places of the site, with the present one marked. */
export function Places({ places }: { places: readonly Place[] }) {
  const path = usePathname()
  const here = (href: string) => (href === '/' ? path === '/' : path === href || path.startsWith(`${href}/`))
  return (
    <ul className="places">
      {places.map(({ href, word, aside }) => (
        <li key={href} className={aside ? 'aside' : undefined}>
          <Link href={href} prefetch={false} aria-current={here(href) ? 'page' : undefined}>
            {word}
          </Link>
        </li>
      ))}
    </ul>
  )
}
