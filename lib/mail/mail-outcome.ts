/** What became of a mail. */
export type MailOutcome =
  | { kind: 'sent'; messageId: string; where: 'smtp' | 'outbox' }
  /** Nobody got it. `again`: a later try may go better; otherwise the address or the settings must be mended first. */
  | { kind: 'failed'; again: boolean; reason: string }
  /** It was handed over whole, and the answer never came: the server may have it or not. */
  | { kind: 'unsure'; reason: string }
