import { DropDraft } from '@/app/ui/drop-draft'

const DID: Record<string, string> = {
  planned: 'Planned.',
  moved: 'The stop was moved; the times below are those of the new order.',
  ordered: 'The stops are in the reckoned order now.',
  locked: 'The stop is locked: a new reckoning leaves it in its place.',
  freed: 'The stop is free to be moved by a new reckoning.',
  added: 'The well was put on the round, where it costs least.',
  work: 'The work of the stop was changed; the times and what to load are those of the new work.',
  off: 'The stop was taken off the round. What is due there stays due.',
  changed: 'The round was changed.',
  out: 'The round is on the road.',
  closed: 'The round is closed. What was not done stays due.',
  thrown: 'The round was thrown away. What is due stays due.',
  settled: 'Settled: it is not asked for any more.',
  'changed-since':
    'Nothing was changed: somebody else changed this round in the meantime. Look at it as it stands now, and try again.',
  refused: 'Nothing was changed: this round does not allow it any more. Look at it as it stands now.',
}

/**
 * Says what was just done, to eyes and to screen readers. `closed` is the stop whose form was accepted, `cost` what a
 * change of work costs.
 */
export function DidNote({ did, closed, cost }: { did: string; closed?: string; cost?: string }) {
  const said = closed ? 'The stop is closed, and what happened there is in the logbook.' : DID[did]
  const words = said && cost ? `${said} ${cost}` : said
  return (
    <div role="status" className={words ? 'done' : undefined}>
      {closed ? <DropDraft storageKey={`stop-${closed}`} /> : null}
      {words ?? ''}
    </div>
  )
}
