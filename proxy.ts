import { type NextRequest, NextResponse } from 'next/server'
import { databaseFile } from '@/lib/records/data-folder'
import { noteSecurity, type SecurityEvent } from '@/lib/records/security-log'
import { tileSource } from '@/lib/records/tile-origin'
import { callsUnknownAction, type RequestHead, stops } from '@/lib/request-checks'

/**
 * Rules for every answer: which scripts may run, who may frame it, that it is not kept. And rules for every request that changes
 * something (lib/request-checks): what they stop is noted. It lets nobody in; each page and action asks for its viewer itself.
 */
export function proxy(request: NextRequest): NextResponse {
  if (request.nextUrl.pathname.startsWith('/_next/static/')) return withFixed(NextResponse.next(), ASSET)
  const head = headOf(request)
  const stopped = stops(head, SITE)
  if (stopped) {
    note(stopped.what, head.path)
    const answer = new NextResponse(`${stopped.said}\n`, {
      status: stopped.status,
      headers: { 'Content-Type': 'text/plain; charset=utf-8' },
    })
    return withFixed(answer, FIXED)
  }
  if (callsUnknownAction(head)) note('call-refused', head.path)
  const nonce = crypto.randomUUID().replaceAll('-', '')
  const policy = policyFor(request.nextUrl.pathname, nonce)
  const headers = new Headers(request.headers)
  // Next reads the policy of the request and puts its number on the scripts it writes.
  headers.set('Content-Security-Policy', policy)
  // Where to lead a person who must sign in first.
  headers.set('X-Wellround-Path', request.nextUrl.pathname + request.nextUrl.search)
  const response = NextResponse.next({ request: { headers } })
  response.headers.set('Content-Security-Policy', policy)
  return withFixed(response, FIXED)
}

const headOf = ({ method, nextUrl, headers, cookies }: NextRequest): RequestHead => ({
  method,
  path: nextUrl.pathname,
  headers,
  cookies: cookies.getAll().map(({ name }) => name),
})

/** The first part of the path alone: what follows may be a token. */
function note(what: SecurityEvent, path: string): void {
  noteSecurity({ file: databaseFile() }, { what, by: null, about: `/${path.split('/')[1] ?? ''}` })
}

function withFixed(response: NextResponse, fixed: Readonly<Record<string, string>>): NextResponse {
  for (const [name, value] of Object.entries(fixed)) response.headers.set(name, value)
  if (HTTPS) response.headers.set('Strict-Transport-Security', STRICT)
  return response
}

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
/** A year. WELLROUND_SUBDOMAINS=http leaves out the hosts below this one, where another's site still goes without https. */
const STRICT = `max-age=31536000${process.env.WELLROUND_SUBDOMAINS === 'http' ? '' : '; includeSubDomains'}`
const DEVELOPING = process.env.NODE_ENV === 'development'

/** Files of the build are the same for everybody and are kept. */
const ASSET = { 'Cross-Origin-Resource-Policy': 'same-origin', 'X-Content-Type-Options': 'nosniff' }

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
