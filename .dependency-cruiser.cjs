/** Who may import whom. One row a rule; the house plan is in DEVELOPERS.md. */
const room = (name) => `^lib/domain/${name}/`

module.exports = {
  forbidden: [
    { name: 'no-cycles', severity: 'error', from: {}, to: { circular: true } },
    {
      name: 'domain-is-pure',
      comment: 'The domain imports the domain, zod for the shape of entries, and number libraries only.',
      severity: 'error',
      from: { path: '^lib/domain/' },
      to: { pathNot: ['^lib/domain/', '^node_modules/(zod|jstat|temporal-polyfill)/'] },
    },
    {
      name: 'quantity-and-stats-stand-alone',
      severity: 'error',
      from: { path: '^lib/domain/(quantity|stats)/' },
      to: { path: '^lib/domain/', pathNot: '^lib/domain/$1/' },
    },
    ...['upkeep', 'yield', 'water', 'pump', 'place'].map((name) => ({
      name: `${name}-imports-quantity-and-stats-only`,
      severity: 'error',
      from: { path: room(name) },
      to: { path: '^lib/domain/', pathNot: [room(name), room('quantity'), room('stats')] },
    })),
    {
      name: 'access-imports-no-data',
      severity: 'error',
      from: { path: '^lib/access/' },
      to: { path: '^(lib/(?!access/|domain/)|app/|seed/|tests/)' },
    },
    {
      name: 'forms-import-domain-only',
      severity: 'error',
      from: { path: '^lib/forms/' },
      to: { path: '^(lib/(?!domain/|forms/)|app/|seed/|tests/)' },
    },
    {
      name: 'records-import-domain-and-access',
      severity: 'error',
      from: { path: '^lib/records/' },
      to: { path: '^(lib/(?!records/|domain/|access/)|app/|seed/|tests/)' },
    },
    {
      name: 'mail-knows-nothing-of-ours',
      severity: 'error',
      from: { path: '^lib/mail/' },
      to: { path: '^(lib/(?!mail/)|app/|seed/|tests/)' },
    },
    {
      name: 'remind-sends-what-records-decide',
      severity: 'error',
      from: { path: '^lib/remind/' },
      to: { path: '^(lib/(?!remind/|records/|mail/|domain/|clock)|app/|seed/|tests/)' },
    },
    {
      name: 'exchange-never-the-pages',
      severity: 'error',
      from: { path: '^lib/exchange/' },
      to: { path: '^(app/|seed/|tests/|lib/cli/)' },
    },
    {
      name: 'only-records-touch-the-database',
      severity: 'error',
      from: { path: '^(app|lib/(?!records/)|seed)' },
      to: { path: '^(node_modules/(@prisma|better-sqlite3)/|lib/records/generated/)' },
    },
    {
      name: 'nothing-imports-the-pages',
      severity: 'error',
      from: { path: '^(lib|seed)/' },
      to: { path: '^app/' },
    },
    {
      name: 'nothing-imports-the-tests',
      severity: 'error',
      from: { pathNot: '^tests/' },
      to: { path: '^tests/' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: 'lib/records/generated' },
    tsConfig: { fileName: 'tsconfig.json' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: { extensions: ['.ts', '.tsx', '.mjs', '.js', '.json'] },
  },
}
