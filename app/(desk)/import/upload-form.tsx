'use client'

import { useActionState } from 'react'
import { ErrorSummary } from '@/app/ui/error-summary'
import { Choices } from '@/app/ui/field'
import { FileField } from '@/app/ui/file-field'
import { SubmitButton } from '@/app/ui/submit-button'
import { FILE_BYTES_MAX, sayBytes } from '@/lib/domain/limits'
import { EMPTY_FORM } from '@/lib/forms/form'
import { takeFile } from './actions'

const KINDS = [
  { value: 'wells', label: 'Wells: one row a well, with its duties in columns if you like' },
  { value: 'duties', label: 'Duties: one row a duty of a well' },
  { value: 'visits', label: 'Visits: one row a visit, with what was done and read' },
  { value: 'recovery', label: 'Recovery tests: one row a reading' },
  { value: 'samples', label: 'Water samples: one row a result' },
  { value: 'entries', label: 'Other logbook lines, as our own export writes them' },
]

export function UploadForm() {
  const [state, send] = useActionState(takeFile, EMPTY_FORM)
  return (
    <form className="form sheet" action={send}>
      <ErrorSummary state={state} />
      <Choices state={state} name="kind" label="What is in the file?" initial="wells" options={KINDS} />
      <FileField
        state={state}
        label="File"
        hint={`CSV or XLSX, at most ${sayBytes(FILE_BYTES_MAX)}. Headings in any words: you say on the next page what each column is.`}
        most={FILE_BYTES_MAX}
        accept=".csv,.tsv,.txt,.xlsx"
      />
      <SubmitButton busy="Reading the file…">Look at the file</SubmitButton>
    </form>
  )
}
