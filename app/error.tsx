'use client'

import { Doorstep } from './ui/shell'
import { WentWrong, type Wrong } from './ui/went-wrong'

export default function RootError(wrong: Wrong) {
  return (
    <Doorstep>
      <WentWrong {...wrong} />
    </Doorstep>
  )
}
