import { type NextRequest, NextResponse } from 'next/server'
import { tileSource } from '@/lib/records/tile-origin'

/**
 * Rules for every answer that is not a file of the build: which scripts may run, who may frame it, that it
 * is not kept. And one for every request that changes something: it must come from a page of this site.
 * It lets nobody in; each page and action asks for its viewer itself.
 */
export function proxy(request: NextRequest): NextResponse {
  if (changesSomething(request) && !comesFromUs(request) && !isOnePress(request)) {
    return new NextResponse('This was not sent from a page of this site, so nothing was changed.\n', {
      status: 403,
      headers: { 'Content-Type': 'text/plain; charset=utf-8', ...FIXED },
    })
  }
  const nonce = crypto.randomUUID().replaceAll('-', '')
  const policy = policyFor(request.nextUrl.pathname, nonce)
  const headers = new Headers(request.headers)
  // Next reads the policy of the request and puts its number on the scripts it writes.
  headers.set('Content-Security-Policy', policy)
  // Where to lead a person who must sign in first.
  headers.set('X-Wellround-Path', request.nextUrl.pathname + request.nextUrl.search)
  const response = NextResponse.next({ request: { headers } })
  response.headers.set('Content-Security-Policy', policy)
  for (const [name, value] of Object.entries(FIXED)) response.headers.set(name, value)
  if (HTTPS) response.headers.set('Strict-Transport-Security', 'max-age=31536000')
  return response
}

export const config = { matcher: ['/((?!_next/static/).*)'] }

/** What people sent in: opened by itself it runs nothing, loads nothing and belongs to no site. */
const FILES = '/api/attachments/'
const NOTHING = "default-src 'none'; sandbox; frame-ancestors 'none'"

/**
 * The pages that a phone shows by itself are one file of the build, kept by the worker for as long as there is no signal: a
 * number used once would be used for ever. Their script and style are files of this site, and nothing stands in the page.
 */
const PHONE = ['/unsent', '/offline/', '/sw.js']

const SITE = process.env.WELLROUND_URL
const HTTPS = SITE?.startsWith('https:') ?? false
const DEVELOPING = process.env.NODE_ENV === 'development'

const FIXED = {
  'Cache-Control': 'no-store',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Permissions-Policy': 'camera=(self), geolocation=(self), microphone=(), payment=(), usb=()',
  // Not "no-referrer": browsers would then name no origin on forms, and comesFromUs would refuse them.
  'Referrer-Policy': 'same-origin',
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
}

function policyFor(path: string, nonce: string): string {
  if (path.startsWith(FILES)) return NOTHING
  if (PHONE.some((own) => path === own || (own.endsWith('/') && path.startsWith(own))))
    return contentPolicy("script-src 'self'", "style-src 'self'")
  return contentPolicy(
    `script-src 'self' 'nonce-${nonce}' 'strict-dynamic'${DEVELOPING ? " 'unsafe-eval'" : ''}`,
    `style-src 'self'${DEVELOPING ? " 'unsafe-inline'" : ` 'nonce-${nonce}'`}`,
  )
}

function contentPolicy(scripts: string, styles: string): string {
  return [
    "default-src 'self'",
    scripts,
    styles,
    `img-src 'self' data: blob:${tileSource()}`,
    "font-src 'self'",
    `connect-src 'self'${tileSource()}${DEVELOPING ? ' ws:' : ''}`,
    "worker-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'self'",
    "frame-src 'none'",
    "frame-ancestors 'none'",
  ].join('; ')
}

const changesSomething = (request: NextRequest) => !['GET', 'HEAD', 'OPTIONS'].includes(request.method)

/** A mail program posts here by itself (RFC 8058): the long token of the address is the permission, and no cookie counts. */
const isOnePress = (request: NextRequest) => request.nextUrl.pathname.startsWith('/api/quiet/')

/**
 * Browsers name the origin on every request that changes something. One without it, or with "null" or another
 * site, is refused: Next itself lets a missing one pass.
 */
function comesFromUs(request: NextRequest): boolean {
  const origin = request.headers.get('origin')
  if (!origin || !URL.canParse(origin)) return false
  if (SITE && origin === new URL(SITE).origin) return true
  return new URL(origin).host === request.headers.get('host')
}
