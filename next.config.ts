import type { NextConfig } from 'next'

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
  // What passes the proxy is cut off at 10 MB unless told: a photo of 10 MB comes in a form that is a little larger.
  experimental: { serverActions: { bodySizeLimit: '12mb' }, proxyClientMaxBodySize: '12mb' },
}

export default config
