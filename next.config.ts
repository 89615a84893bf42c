import type { NextConfig } from 'next'

const config: NextConfig = {
  // Native or wasm-loading packages stay outside the bundle; Node loads them as they are.
  serverExternalPackages: [
    'better-sqlite3',
    '@prisma/client',
    '@prisma/adapter-better-sqlite3',
    '@prisma/schema-engine-wasm',
    'better-auth',
  ],
  // `npm test` checks the types of everything, once; a start need not do it again.
  typescript: { ignoreBuildErrors: true },
  poweredByHeader: false,
  reactStrictMode: true,
  images: { unoptimized: true },
  experimental: { serverActions: { bodySizeLimit: '12mb' } },
}

export default config
