/** Run by Next once when a server starts. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  const { startReminders } = await import('./lib/remind/schedule')
  startReminders()
}

/** Run by Next for every error that nothing caught: what somebody may not do is noted, whoever asked. */
export async function onRequestError(error: unknown): Promise<void> {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  if (!(error instanceof Error && error.name === 'NotAllowed')) return
  const { noteDenial } = await import('./lib/records/note-denial')
  await noteDenial(error.message)
}
