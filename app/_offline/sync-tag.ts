/** What the browser is asked to wake the worker for. */
export const SYNC_TAG = 'wellround-send'
