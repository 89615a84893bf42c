/**
 * Builds what a phone shows without signal into public/offline: one page without any data, its script, style and font,
 * and the worker that keeps them. Names carry a hash of the content; the worker knows the list.
 */
import { createHash } from 'node:crypto'
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { build } from 'esbuild'
import { ROOT } from './steps.mjs'

const OUT = join(ROOT, 'public', 'offline')
const COMMON = {
  absWorkingDir: ROOT,
  bundle: true,
  minify: true,
  target: 'es2022',
  logLevel: 'warning',
  define: { 'process.env.NODE_ENV': '"production"', 'process.env': '{}' },
}

/** zod brings its sentences in fifty languages, which none of our pages shows: English is enough on a phone. */
const ENGLISH_ONLY = {
  name: 'english-only',
  setup(bundler) {
    bundler.onResolve({ filter: /locales\/index\.js$/ }, ({ importer, resolveDir }) =>
      importer.includes(join('node_modules', 'zod'))
        ? { path: join(resolveDir, '..', 'locales', 'en.js') }
        : undefined,
    )
  },
}

export async function buildOffline() {
  rmSync(OUT, { recursive: true, force: true })
  mkdirSync(OUT, { recursive: true })
  const { metafile } = await build({
    ...COMMON,
    entryPoints: { app: 'app/_offline/shell/index.tsx', style: 'app/_offline/shell/style.css' },
    outdir: OUT,
    // Parts that only some pages need are files of their own, which the worker keeps like the rest.
    format: 'esm',
    splitting: true,
    metafile: true,
    jsx: 'automatic',
    entryNames: '[name]-[hash]',
    chunkNames: 'part-[hash]',
    assetNames: '[name]-[hash]',
    publicPath: '/offline',
    loader: { '.woff2': 'file' },
    // Pages of the desk link by the router, which is not there without signal.
    alias: { 'next/link': './app/_offline/shell/plain-link.tsx' },
    plugins: [ENGLISH_ONLY],
  })
  const files = readdirSync(OUT).sort()
  const named = (start, end) => {
    const name = files.find((file) => file.startsWith(start) && file.endsWith(end))
    if (!name) throw new Error(`the build made no ${start}*${end}`)
    return `/offline/${name}`
  }
  const app = named('app-', '.js')
  writeFileSync(join(OUT, 'shell.html'), page(app, partsOf(metafile, app), named('style-', '.css')))
  const entries = [...files, 'shell.html'].map((file) => ({
    url: `/offline/${file}`,
    revision: createHash('sha256')
      .update(readFileSync(join(OUT, file)))
      .digest('hex')
      .slice(0, 16),
  }))
  for (const name of ['worker', 'worker-off']) {
    await build({
      ...COMMON,
      entryPoints: { [name]: `app/_offline/worker/${name}.ts` },
      outdir: OUT,
      format: 'iife',
      define: { ...COMMON.define, PRECACHED: JSON.stringify(entries) },
    })
  }
}

/** What the first script needs at once, however deep: fetched beside it and not one after another. */
function partsOf({ outputs }, script) {
  const found = new Set()
  const look = (file) => {
    for (const { path, kind } of outputs[file].imports)
      if (kind === 'import-statement' && !found.has(path)) {
        found.add(path)
        look(path)
      }
  }
  look(Object.keys(outputs).find((file) => file.endsWith(script)))
  return [...found].map((path) => `/offline/${basename(path)}`)
}

const page = (script, parts, style) => `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex, nofollow">
<title>On this phone – Wellround</title>
<link rel="stylesheet" href="${style}">
${parts.map((part) => `<link rel="modulepreload" href="${part}">`).join('\n')}
</head>
<body>
<a class="skip" href="#content">Skip to the content</a>
<div id="phone"></div>
<noscript><p>This page shows what waits on this phone, and needs JavaScript for it. <a href="/">All other pages</a> do without.</p></noscript>
<script type="module" src="${script}"></script>
</body>
</html>
`
