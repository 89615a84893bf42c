import type { Metadata } from 'next'
import { NothingHere } from './ui/nothing-here'
import { Doorstep } from './ui/shell'

export const metadata: Metadata = { title: 'Not found' }

export default function NotFound() {
  return (
    <Doorstep>
      <NothingHere />
    </Doorstep>
  )
}
