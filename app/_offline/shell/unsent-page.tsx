import { useCallback, useEffect, useState } from 'react'
import { PageHead } from '@/app/ui/page-head'
import { download, unsentFile } from '../export-file'
import { clock } from '../keep-visit'
import { countUnsent, listOf, onChanged } from '../queue'
import { sendAll } from '../send'
import type { QueuedPhoto, QueuedVisit } from '../store'
import { words } from '../take-along'
import { type TakenLine, takenList } from '../taken'
import { LeftPhotos } from './left-photos'
import { ReadBackFile } from './read-back'
import { UnsentVisit } from './unsent-visit'

type Seen = {
  visits: QueuedVisit[]
  photos: QueuedPhoto[]
  others: number
  taken: TakenLine[]
  stays: boolean
}

/** What waits on this phone, with its content and its state, and what was taken along on it. */
export function UnsentPage({ user }: { user: string }) {
  const [seen, setSeen] = useState<Seen | null>(null)
  const [says, setSays] = useState('')
  const look = useCallback(async () => {
    const [list, counts, taken, stays] = await Promise.all([
      listOf(user),
      countUnsent(user),
      takenList(user, Date.now()),
      navigator.storage?.persisted?.() ?? false,
    ])
    setSeen({ ...list, others: counts.others, taken, stays })
  }, [user])
  useEffect(() => {
    void look()
    return onChanged(() => void look())
  }, [look])
  if (!seen) return <p>Looking at what is on this phone …</p>

  const waiting = seen.visits.filter(({ state }) => state !== 'sent')
  const send = async () => {
    setSays('Sending …')
    const outcome = await sendAll(user, true)
    await look()
    setSays(said(outcome))
  }
  return (
    <>
      <PageHead title="On this phone" lead="What is not sent yet, and what was taken along">
        {waiting.length + seen.photos.length > 0 ? (
          <>
            <button type="button" className="button" onClick={send}>
              Send now
            </button>
            <button
              type="button"
              className="button button-quiet"
              onClick={async () => download(await unsentFile(user, new Date()))}
            >
              Save as a file
            </button>
          </>
        ) : null}
      </PageHead>
      <p role="status">{says}</p>
      {seen.others > 0 ? (
        <p className="text">
          Somebody else has {seen.others} {seen.others === 1 ? 'record' : 'records'} on this phone that{' '}
          {seen.others === 1 ? 'is' : 'are'} not sent. They are sent when that person signs in here.
        </p>
      ) : null}
      <section aria-labelledby="waiting" className="stack">
        <h2 id="waiting">Not sent yet</h2>
        {waiting.length === 0 ? <p className="muted">Nothing waits here.</p> : null}
        {waiting.map((visit) => (
          <UnsentVisit
            key={visit.id}
            visit={visit}
            photos={seen.photos.filter((photo) => photo.visit === visit.id)}
            user={user}
          />
        ))}
        <LeftPhotos photos={seen.photos.filter(({ visit }) => !waiting.some(({ id }) => id === visit))} />
      </section>
      <Arrived visits={seen.visits.filter(({ state }) => state === 'sent')} />
      <TakenAlong taken={seen.taken} />
      <ReadBackFile user={user} />
      {waiting.length > 0 && !seen.stays ? (
        <p className="muted text">
          This browser did not promise to keep what waits here when the phone runs short of room. Send it
          soon, or save it as a file.
        </p>
      ) : null}
    </>
  )
}

function said(outcome: Awaited<ReturnType<typeof sendAll>>): string {
  if (outcome === null) return 'It is being sent already.'
  if (!outcome.reached)
    return 'Could not send: see the reason with each record. Everything is still on this phone.'
  if (outcome.left === 0) return `Sent at ${clock(new Date())}. Nothing waits any more.`
  return `${outcome.sent} sent, ${outcome.left} left: see the reason with each.`
}

function Arrived({ visits }: { visits: readonly QueuedVisit[] }) {
  if (visits.length === 0) return null
  return (
    <section aria-labelledby="arrived" className="stack-tight">
      <h2 id="arrived">Sent in the last day</h2>
      <ul>
        {visits.map(({ id, label, wellId, sentAt }) => (
          <li key={id}>
            <a href={`/wells/${encodeURIComponent(wellId)}`}>{label}</a>: sent at{' '}
            {clock(new Date(sentAt ?? ''))}
          </li>
        ))}
      </ul>
    </section>
  )
}

function TakenAlong({ taken }: { taken: readonly TakenLine[] }) {
  return (
    <section aria-labelledby="along" className="stack-tight">
      <h2 id="along">Taken along</h2>
      {taken.length === 0 ? (
        <p className="muted text">
          Nothing yet. While there is signal, open a round or a well and press “Take this with you”: its pages
          then open without signal.
        </p>
      ) : (
        <ul>
          {taken.map(({ key, label, takenAt }) => (
            <li key={key}>
              <a href={hrefOf(key)}>{label}</a>, last updated {words(takenAt)}
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}

/** "well:ID" and "round:ID" as their pages. */
function hrefOf(key: string): string {
  const [kind, ...id] = key.split(':')
  return `/${kind}s/${encodeURIComponent(id.join(':'))}`
}
