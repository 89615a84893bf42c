/** Run by Next once when a server starts. */
export async function register(): Promise<void> {
  if (process.env.NEXT_RUNTIME !== 'nodejs') return
  const { startReminders } = await import('./lib/remind/schedule')
  startReminders()
}
