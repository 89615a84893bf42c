import type { NextConfig } from 'next'
import { FORM_BYTES_MAX } from './lib/domain/limits'

const config: NextConfig = {
  // Native or wasm-loading packages stay outside the bundle; Node loads them as they are.
  serverExternalPackages: [
    'better-sqlite3',
    '@prisma/client',
    '@prisma/adapter-better-sqlite3',
    '@prisma/schema-engine-wasm',
    'better-auth',
    '@better-auth/passkey',
    'sharp',
  ],
  // `npm test` checks the types of everything, once; a start need not do it again.
  typescript: { ignoreBuildErrors: true },
  poweredByHeader: false,
  reactStrictMode: true,
  images: { unoptimized: true },
  // What passes the proxy is cut off at 10 MB, and what an action takes at 1 MB, unless told.
  experimental: {
    serverActions: { bodySizeLimit: FORM_BYTES_MAX },
    proxyClientMaxBodySize: FORM_BYTES_MAX,
  },
}

export default config
