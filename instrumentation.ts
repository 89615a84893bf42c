import type { Instrumentation } from 'next'

/** Run by Next once when a server starts. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  const { startReminders } = await import('./lib/remind/schedule')
  startReminders()
}

/** Run by Next for every error that nothing caught: what somebody may not do is noted, whoever asked. */
export const onRequestError: Instrumentation.onRequestError = async (error, _request, { routeType }) => {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  const { noteUncaught } = await import('./lib/records/note-uncaught')
  await noteUncaught(error, routeType)
}
