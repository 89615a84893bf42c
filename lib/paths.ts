/** Every address of the site is made here. Values are escaped; blanks are left out. */

type Query = Readonly<Record<string, string | readonly string[] | null | undefined>>

const id = (text: string) => encodeURIComponent(text)

function withQuery(path: string, query: Query = {}): string {
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(query)) {
    for (const one of typeof value === 'string' ? [value] : (value ?? [])) {
      if (one !== '') search.append(name, one)
    }
  }
  const text = search.toString()
  return text === '' ? path : `${path}?${text}`
}

export const paths = {
  due: (query?: Query) => withQuery('/', query),
  sheet: (ids: readonly string[] = []) => withQuery('/due/sheet', { ids }),

  rounds: (query?: Query) => withQuery('/rounds', query),
  planRound: (query?: Query) => withQuery('/rounds/plan', query),
  round: (roundId: string, query?: Query) => withQuery(`/rounds/${id(roundId)}`, query),
  roundSheet: (roundId: string) => `/rounds/${id(roundId)}/sheet`,
  closeStop: (roundId: string, stopId: string) => `/rounds/${id(roundId)}/stops/${id(stopId)}`,
  stopWork: (roundId: string, stopId: string) => `/rounds/${id(roundId)}/stops/${id(stopId)}/work`,

  wells: (query?: Query) => withQuery('/wells', query),
  newWell: () => '/wells/new',
  bulkDuties: (query?: Query) => withQuery('/wells/duties', query),
  bulkSetUp: (query?: Query) => withQuery('/wells/set-up', query),
  well: (wellId: string) => `/wells/${id(wellId)}`,
  wellEdit: (wellId: string) => `/wells/${id(wellId)}/edit`,
  sale: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/sale`, query),
  wellPlace: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/place`, query),
  newPlace: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/place/new`, query),
  findWell: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/find`, query),
  wellPlates: (wellId: string) => `/wells/${id(wellId)}/plates`,
  map: (query?: Query) => withQuery('/map', query),
  mapData: (query?: Query) => withQuery('/api/map', query),
  mapSettings: () => '/settings/map',
  plateSheet: (query?: Query) => withQuery('/plates', query),
  plate: (code: string) => `/p/${id(code)}`,
  visit: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/visit`, query),
  newSample: (wellId: string) => `/wells/${id(wellId)}/samples/new`,
  sample: (wellId: string, entryId: string, query?: Query) =>
    withQuery(`/wells/${id(wellId)}/samples/${id(entryId)}`, query),
  attachment: (attachmentId: string) => `/api/attachments/${id(attachmentId)}`,
  tests: (wellId: string) => `/wells/${id(wellId)}/tests`,
  newTest: (wellId: string, kind = '') => `/wells/${id(wellId)}/tests/new${kind && `/${id(kind)}`}`,
  test: (wellId: string, entryId: string, query?: Query) =>
    withQuery(`/wells/${id(wellId)}/tests/${id(entryId)}`, query),
  newDuty: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/duties/new`, query),
  duty: (dutyId: string) => `/duties/${id(dutyId)}`,
  newPart: (wellId: string) => `/wells/${id(wellId)}/parts/new`,
  part: (wellId: string, partId: string) => `/wells/${id(wellId)}/parts/${id(partId)}`,

  models: (query?: Query) => withQuery('/models', query),
  newModel: (kind: 'pump' | 'cartridge') => `/models/${kind}/new`,
  model: (kind: 'pump' | 'cartridge', modelId: string) => `/models/${kind}/${id(modelId)}`,

  water: (query?: Query) => withQuery('/water', query),
  wellWater: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/water`, query),
  chain: (wellId: string, key: string, query?: Query) =>
    withQuery(`/wells/${id(wellId)}/water/chain/${id(key)}`, query),
  notice: (wellId: string, key: string, query?: Query) =>
    withQuery(`/wells/${id(wellId)}/water/notice/${id(key)}`, query),
  dose: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/water/dose`, query),
  sampling: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/water/sampling`, query),
  inspection: (wellId: string) => `/wells/${id(wellId)}/water/inspection`,
  yields: (query?: Query) => withQuery('/yield', query),
  wellYield: (wellId: string) => `/wells/${id(wellId)}/yield`,
  wellWear: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/wear`, query),
  wellSupply: (wellId: string, query?: Query) => withQuery(`/wells/${id(wellId)}/supply`, query),
  wellSupplyFacts: (wellId: string) => `/wells/${id(wellId)}/supply/facts`,

  stock: (query?: Query) => withQuery('/stock', query),
  stockBuy: (query?: Query) => withQuery('/stock/buy', query),
  newStock: (query?: Query) => withQuery('/stock/new', query),
  stockItem: (itemId: string, query?: Query) => withQuery(`/stock/${id(itemId)}`, query),

  correct: (entryId: string) => `/entries/${id(entryId)}/correct`,
  withdraw: (entryId: string) => `/entries/${id(entryId)}/withdraw`,

  imports: () => '/import',
  import: (uploadId: string, query?: Query) => withQuery(`/import/${id(uploadId)}`, query),
  importJob: (jobId: string) => `/import/job/${id(jobId)}`,
  importUndo: (batchId: string) => `/import/undo/${id(batchId)}`,
  exports: () => '/export',

  /** What waits on this phone, and what was taken along on it. */
  unsent: (query?: Query) => withQuery('/unsent', query),
  phoneRound: (roundId: string) => `/api/v1/rounds/${id(roundId)}`,
  phoneWell: (wellId: string) => `/api/v1/wells/${id(wellId)}`,

  own: () => '/own',
  ownWell: (wellId: string, query?: Query) => withQuery(`/own/${id(wellId)}`, query),
  ownSheet: (wellId: string) => `/own/${id(wellId)}/samples/new`,
  ownSample: (wellId: string, entryId: string, query?: Query) =>
    withQuery(`/own/${id(wellId)}/samples/${id(entryId)}`, query),
  ownReading: (wellId: string) => `/own/${id(wellId)}/reading`,
  ownFind: (wellId: string) => `/own/${id(wellId)}/find`,
  ownHelp: (wellId: string) => `/own/${id(wellId)}/what-if`,

  pastWell: (wellId: string) => `/own/past/${id(wellId)}`,

  ownTank: (wellId: string) => `/own/${id(wellId)}/tank`,
  ownAsk: (wellId: string) => `/own/${id(wellId)}/ask`,
  ownAnswer: (wellId: string, entryId: string) => `/own/${id(wellId)}/answer/${id(entryId)}`,

  reminders: (query?: Query) => withQuery('/reminders', query),
  feed: (token: string) => `/feed/${id(token)}.ics`,
  fromOwners: (query?: Query) => withQuery('/from-owners', query),
  households: (query?: Query) => withQuery('/households', query),
  household: (ownerId: string) => `/households/${id(ownerId)}`,
  forget: (ownerId: string) => `/households/${id(ownerId)}/forget`,
  join: (code?: string) => withQuery('/join', { code }),

  signIn: (next?: string) => withQuery('/sign-in', { next }),
  signInAfterReset: () => '/sign-in?reset=done',
  forgot: () => '/forgot',
  reset: (code?: string) => withQuery('/reset', { code }),
  firstRun: () => '/first-run',
  account: () => '/account',
  people: () => '/people',
  settings: () => '/settings',
  yard: () => '/settings/yard',
  defaults: () => '/settings/defaults',
  localLimits: (query?: Query) => withQuery('/settings/limits', query),
}
