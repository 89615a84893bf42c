import '@fontsource-variable/source-sans-3/index.css'
import './ui/css/tokens.css'
import './ui/css/base.css'
import './ui/css/shell.css'
import './ui/css/forms.css'
import './ui/css/tables.css'
import './ui/css/desk.css'
import './ui/css/visit.css'
import './ui/css/samples.css'
import './ui/css/tests.css'
import './ui/css/charts.css'
import './ui/css/owner.css'
import './ui/css/water.css'
import './ui/css/yield.css'
import './ui/css/phone.css'
import './ui/css/place.css'
import './ui/css/plates.css'
import './ui/css/rounds.css'
import './ui/css/print.css'
import type { Metadata, Viewport } from 'next'
import { connection } from 'next/server'
import type { ReactNode } from 'react'

export const metadata: Metadata = {
  title: { default: 'Wellround', template: '%s – Wellround' },
  description: 'Register, logbook and honest reckoning for shallow wells',
  robots: { index: false, follow: false },
}

export const viewport: Viewport = {
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#ffffff' },
    { media: '(prefers-color-scheme: dark)', color: '#1b2224' },
  ],
}

export default async function RootLayout({ children }: { children: ReactNode }) {
  // Every page is made for its request: the script policy carries a number used once (see proxy.ts).
  await connection()
  return (
    <html lang="en">
      <body>
        <a className="skip" href="#content">
          Skip to the content
        </a>
        {children}
      </body>
    </html>
  )
}
