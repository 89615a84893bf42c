import { type ChangeEvent, useState } from 'react'
import { type ReadBack, readBack } from '../import-file'
import { storageRefusal } from '../store'

/** Takes a saved file of unsent records back in, on this phone or another one of the same person. */
export function ReadBackFile({ user }: { user: string }) {
  const [says, setSays] = useState('')
  const choose = async ({ target }: ChangeEvent<HTMLInputElement>) => {
    const [file] = target.files ?? []
    if (!file) return
    setSays('Reading the file …')
    try {
      setSays(wordsOf(await readBack(user, await file.text())))
    } catch (error) {
      setSays(storageRefusal(error))
    }
    // The same file can be chosen once more.
    target.value = ''
  }
  return (
    <details className="section no-print">
      <summary>Read a saved file back</summary>
      <div className="section-body stack-tight">
        <p className="text">
          A file of what was not sent goes back in line here, on this phone or another, for the person who
          wrote it. What the server has already is not stored twice.
        </p>
        <div className="field">
          <label htmlFor="read-back">File</label>
          <input id="read-back" type="file" accept="application/json,.json" onChange={choose} />
        </div>
        <p role="status">{says}</p>
      </div>
    </details>
  )
}

function wordsOf(outcome: ReadBack): string {
  if (!outcome.ok) return `Nothing was read back. ${outcome.says}`
  const { back, photos, known, spoilt } = outcome
  return [
    `Saved on this phone: ${back} ${back === 1 ? 'record' : 'records'} and ${photos} ${photos === 1 ? 'photo' : 'photos'} of the file.`,
    known > 0 ? `${known} lay here already and stayed as they are.` : '',
    spoilt > 0 ? `${spoilt} could not be read and were left out: keep the file.` : '',
  ]
    .filter(Boolean)
    .join(' ')
}
