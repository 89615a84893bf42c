import Link from 'next/link'
import type { ReactNode } from 'react'
import { mayFleet } from '@/lib/access/rules'
import type { Viewer } from '@/lib/access/viewer'
import { PhoneMark } from '../_offline/phone-mark'
import { SignOut } from '../_offline/sign-out'
import { type Place, Places } from './places'

/** The frame of every page behind the door: where one can go, and the page. */
export function Shell({ viewer, children }: { viewer: Viewer; children: ReactNode }) {
  return (
    <>
      <header className="top">
        <div className="top-inside">
          <Link className="brand" href="/" prefetch={false}>
            Wellround
          </Link>
          <nav aria-label="Main">
            <Places places={placesOf(viewer)} />
          </nav>
          {mayFleet(viewer, 'fleet.see') && viewer.userId !== null ? (
            <PhoneMark who={{ id: viewer.userId, name: viewer.name }} />
          ) : null}
          {viewer.userId === null ? null : <SignOut user={viewer.userId} />}
        </div>
      </header>
      <main id="content" className="page" tabIndex={-1}>
        {children}
      </main>
    </>
  )
}

/** The frame of the pages before the door. */
export function Doorstep({ children }: { children: ReactNode }) {
  return (
    <>
      <header className="top">
        <div className="top-inside">
          <span className="brand">Wellround</span>
        </div>
      </header>
      <main id="content" className="page page-narrow" tabIndex={-1}>
        {children}
      </main>
    </>
  )
}

function placesOf(viewer: Viewer): Place[] {
  const account = { href: '/account', word: viewer.name, aside: true }
  if (!mayFleet(viewer, 'fleet.see')) return [{ href: '/own', word: 'Your wells' }, account]
  return [
    { href: '/', word: 'Due' },
    { href: '/rounds', word: 'Rounds' },
    { href: '/wells', word: 'Wells' },
    { href: '/map', word: 'Map' },
    { href: '/water', word: 'Water' },
    { href: '/yield', word: 'Yield' },
    { href: '/stock', word: 'Stock' },
    ...(mayFleet(viewer, 'import.run') ? [{ href: '/import', word: 'Import' }] : []),
    ...(mayFleet(viewer, 'user.manage') ? [{ href: '/households', word: 'Households' }] : []),
    ...(mayFleet(viewer, 'setting.edit') ? [{ href: '/settings', word: 'Settings' }] : []),
    account,
  ]
}
