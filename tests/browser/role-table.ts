/**
 * Who gets what from every address of the site, one row an address. A route of the build without a row fails the test, and
 * so does a row without a route. `door`: led to the sign-in page. `absent`: not found, whether it exists or not.
 */
export const ROLES = ['anonymous', 'owner', 'stranger', 'technician', 'installer'] as const
export type Role = (typeof ROLES)[number]
type Answer = 'page' | 'door' | 'absent' | 'away'
type Row = readonly [
  anonymous: Answer,
  owner: Answer,
  stranger: Answer,
  technician: Answer,
  installer: Answer,
]

const DESK: Row = ['door', 'absent', 'absent', 'page', 'page']
const INSTALLER: Row = ['door', 'absent', 'absent', 'absent', 'page']
/** Pages of a thing that does not exist in the demo: nobody is told anything else. */
const NOTHING: Row = ['door', 'absent', 'absent', 'absent', 'absent']
const HOUSEHOLD: Row = ['door', 'page', 'absent', 'away', 'away']
const SELF: Row = ['door', 'page', 'page', 'page', 'page']
const OPEN: Row = ['page', 'away', 'away', 'away', 'away']

/** `[wellId]` and `[entryId]` are of a well of the owner's household and of a lab sheet of it. */
export const PAGES: Readonly<Record<string, Row>> = {
  '/': ['door', 'away', 'away', 'page', 'page'],
  '/due/sheet': DESK,
  '/duties/[dutyId]': INSTALLER,
  '/entries/[entryId]/correct': DESK,
  '/entries/[entryId]/withdraw': DESK,
  '/export': INSTALLER,
  '/from-owners': DESK,
  '/households': INSTALLER,
  '/map': DESK,
  '/plates': DESK,
  '/households/[ownerId]': INSTALLER,
  '/households/[ownerId]/forget': INSTALLER,
  '/import': INSTALLER,
  '/import/[uploadId]': NOTHING,
  '/import/job/[jobId]': NOTHING,
  '/import/undo/[batchId]': INSTALLER,
  '/models': INSTALLER,
  '/models/[what]/new': INSTALLER,
  '/models/[what]/[modelId]': INSTALLER,
  '/rounds': DESK,
  '/rounds/[roundId]': DESK,
  '/settings': INSTALLER,
  '/settings/limits': INSTALLER,
  '/settings/map': INSTALLER,
  '/water': DESK,
  '/wells': DESK,
  '/wells/duties': INSTALLER,
  '/wells/new': INSTALLER,
  '/wells/set-up': INSTALLER,
  '/wells/[wellId]': DESK,
  '/wells/[wellId]/duties/new': INSTALLER,
  '/wells/[wellId]/edit': INSTALLER,
  '/wells/[wellId]/find': DESK,
  '/wells/[wellId]/parts/new': INSTALLER,
  '/wells/[wellId]/parts/[partId]': INSTALLER,
  '/wells/[wellId]/sale': INSTALLER,
  '/wells/[wellId]/place': DESK,
  '/wells/[wellId]/place/new': DESK,
  '/wells/[wellId]/plates': DESK,
  '/wells/[wellId]/samples/new': DESK,
  '/wells/[wellId]/samples/[entryId]': DESK,
  '/wells/[wellId]/tests': DESK,
  '/wells/[wellId]/tests/new': DESK,
  '/wells/[wellId]/tests/new/[kind]': DESK,
  // The entry is a lab sheet and no test.
  '/wells/[wellId]/tests/[entryId]': NOTHING,
  '/wells/[wellId]/visit': DESK,
  '/wells/[wellId]/water': DESK,
  '/wells/[wellId]/water/chain/[key]': DESK,
  '/wells/[wellId]/water/dose': DESK,
  '/wells/[wellId]/water/inspection': DESK,
  '/wells/[wellId]/water/notice/[key]': DESK,
  '/wells/[wellId]/water/sampling': DESK,
  '/wells/[wellId]/wear': DESK,
  '/wells/[wellId]/yield': DESK,
  '/yield': DESK,
  '/own': ['door', 'page', 'page', 'away', 'away'],
  '/own/[wellId]': HOUSEHOLD,
  // The entry is a lab sheet of the outfit: nobody asks the household about it.
  '/own/[wellId]/answer/[entryId]': ['door', 'absent', 'absent', 'away', 'away'],
  '/own/[wellId]/ask': HOUSEHOLD,
  '/own/[wellId]/find': HOUSEHOLD,
  '/own/[wellId]/reading': HOUSEHOLD,
  '/own/[wellId]/samples/new': HOUSEHOLD,
  '/own/[wellId]/samples/[entryId]': HOUSEHOLD,
  '/own/[wellId]/tank': HOUSEHOLD,
  '/own/[wellId]/what-if': HOUSEHOLD,
  // Nothing was granted of the well: it is the owner's own now.
  '/own/past/[wellId]': ['door', 'absent', 'absent', 'away', 'away'],
  // A plate that counts leads who may see its well to it; no other answer tells whether it exists.
  '/p/[code]': ['door', 'away', 'absent', 'away', 'away'],
  '/account': SELF,
  '/sign-in': OPEN,
  '/forgot': OPEN,
  // A link may be followed in a browser where somebody is signed in, it may be somebody else.
  '/reset': ['page', 'page', 'page', 'page', 'page'],
  // A card adds to the account of whoever is signed in.
  '/join': ['page', 'page', 'page', 'away', 'away'],
  // There is an installer: the first account is made.
  '/first-run': ['door', 'door', 'door', 'door', 'door'],
  '/api/attachments/[attachmentId]': ['absent', 'page', 'absent', 'page', 'page'],
  '/api/export/[file]': ['absent', 'absent', 'absent', 'absent', 'page'],
  '/api/map': ['absent', 'absent', 'absent', 'page', 'page'],
  '/api/import/[jobId]': ['absent', 'absent', 'absent', 'absent', 'absent'],
  '/health': ['page', 'page', 'page', 'page', 'page'],
}

/** Made by the framework, or answering to POST alone; tried elsewhere. */
export const APART = ['/_global-error', '/_not-found', '/sign-out', '/api/v1/batches', '/api/v1/photos']

/** How every action finds out who is asking, in its own words. */
export const ACTIONS: Readonly<
  Record<string, 'deskViewer' | 'settingEditor' | 'ownViewer' | 'signedInViewer' | 'nobody'>
> = {
  'app/(desk)/_people/actions.ts#changeRole': 'deskViewer',
  'app/(desk)/_people/actions.ts#giveNewPassword': 'deskViewer',
  'app/(desk)/_people/actions.ts#makeCardForPassword': 'deskViewer',
  'app/(desk)/_people/actions.ts#signOutEverywhere': 'deskViewer',
  'app/(desk)/_people/actions.ts#switchPerson': 'deskViewer',
  'app/(desk)/duties/actions.ts#changeDuty': 'deskViewer',
  'app/(desk)/duties/actions.ts#giveOneDuty': 'deskViewer',
  'app/(desk)/entries/[entryId]/correct/actions.ts#saveCorrection': 'deskViewer',
  'app/(desk)/entries/[entryId]/withdraw/actions.ts#saveWithdrawal': 'deskViewer',
  'app/(desk)/from-owners/actions.ts#saveReply': 'deskViewer',
  'app/(desk)/households/[ownerId]/actions.ts#makeCard': 'deskViewer',
  'app/(desk)/households/[ownerId]/actions.ts#takeBack': 'deskViewer',
  'app/(desk)/households/[ownerId]/actions.ts#takeOut': 'deskViewer',
  'app/(desk)/households/[ownerId]/forget/actions.ts#forget': 'deskViewer',
  'app/(desk)/import/actions.ts#runImport': 'deskViewer',
  'app/(desk)/import/actions.ts#takeBack': 'deskViewer',
  'app/(desk)/import/actions.ts#takeFile': 'deskViewer',
  'app/(desk)/models/actions.ts#storeCartridge': 'deskViewer',
  'app/(desk)/models/actions.ts#storePump': 'deskViewer',
  'app/(desk)/settings/actions.ts#addPerson': 'deskViewer',
  'app/(desk)/settings/actions.ts#saveOutfit': 'deskViewer',
  'app/(desk)/settings/actions.ts#saveReckoning': 'deskViewer',
  'app/(desk)/plates/actions.ts#makeMissing': 'deskViewer',
  'app/(desk)/plates/actions.ts#takeBack': 'deskViewer',
  'app/(desk)/settings/map/actions.ts#saveTiles': 'deskViewer',
  'app/(desk)/settings/limits/actions.ts#removeLimit': 'settingEditor',
  'app/(desk)/settings/limits/actions.ts#saveLimit': 'settingEditor',
  'app/(desk)/wells/[wellId]/parts/actions.ts#storePart': 'deskViewer',
  'app/(desk)/wells/[wellId]/sale/actions.ts#saveSale': 'deskViewer',
  'app/(desk)/wells/[wellId]/sale/actions.ts#takeGrantBack': 'deskViewer',
  'app/(desk)/wells/[wellId]/find/actions.ts#saveSearch': 'deskViewer',
  'app/(desk)/wells/[wellId]/place/actions.ts#attachPlacePhoto': 'deskViewer',
  'app/(desk)/wells/[wellId]/place/actions.ts#takeOver': 'deskViewer',
  'app/(desk)/wells/[wellId]/place/new/actions.ts#savePlace': 'deskViewer',
  'app/(desk)/wells/[wellId]/samples/[entryId]/actions.ts#attachFile': 'deskViewer',
  'app/(desk)/wells/[wellId]/samples/new/actions.ts#saveSheet': 'deskViewer',
  'app/(desk)/wells/[wellId]/tests/new/[kind]/actions.ts#saveTest': 'deskViewer',
  'app/(desk)/wells/[wellId]/visit/actions.ts#saveVisit': 'deskViewer',
  'app/(desk)/wells/[wellId]/water/actions.ts#saveWater': 'deskViewer',
  'app/(desk)/wells/[wellId]/wear/actions.ts#takeInterval': 'deskViewer',
  'app/(desk)/wells/actions.ts#addWell': 'deskViewer',
  'app/(desk)/wells/actions.ts#changeWell': 'deskViewer',
  'app/(desk)/wells/duties/actions.ts#giveDuty': 'deskViewer',
  'app/(desk)/wells/set-up/actions.ts#setUpAlike': 'deskViewer',
  'app/(door)/first-run/actions.ts#makeFirstAccount': 'nobody',
  'app/(door)/join/actions.ts#addHousehold': 'ownViewer',
  'app/(door)/join/actions.ts#join': 'nobody',
  'app/(door)/forgot/actions.ts#askForReset': 'nobody',
  'app/(door)/reset/actions.ts#setNewPassword': 'nobody',
  'app/(door)/sign-in/actions.ts#enter': 'nobody',
  'app/(owner)/own/[wellId]/answer/[entryId]/actions.ts#saveAnswer': 'ownViewer',
  'app/(owner)/own/[wellId]/ask/actions.ts#saveAsk': 'ownViewer',
  'app/(owner)/own/[wellId]/tank/actions.ts#saveTank': 'ownViewer',
  'app/(door)/sign-in/passkey-actions.ts#finishPasskeySignIn': 'nobody',
  'app/(door)/sign-in/passkey-actions.ts#startPasskeySignIn': 'nobody',
  'app/(owner)/own/[wellId]/reading/actions.ts#saveOwnReading': 'ownViewer',
  'app/(owner)/own/[wellId]/samples/[entryId]/actions.ts#attachOwnFile': 'ownViewer',
  'app/(owner)/own/[wellId]/samples/new/actions.ts#saveOwnSheet': 'ownViewer',
  'app/(self)/account/actions.ts#endOneSession': 'signedInViewer',
  'app/(self)/account/actions.ts#endSessions': 'signedInViewer',
  'app/(self)/account/actions.ts#savePassword': 'signedInViewer',
  'app/(self)/account/actions.ts#saveProfile': 'signedInViewer',
  'app/(self)/account/passkey-actions.ts#finishPasskey': 'signedInViewer',
  'app/(self)/account/passkey-actions.ts#removeOwnPasskey': 'signedInViewer',
  'app/(self)/account/passkey-actions.ts#renameOwnPasskey': 'signedInViewer',
  'app/(self)/account/passkey-actions.ts#startPasskey': 'signedInViewer',
}
