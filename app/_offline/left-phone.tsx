'use client'

import { useEffect } from 'react'
import { dropMarksOf } from './marks'
import { forgetPerson, person } from './taken'

/** Whoever has just left takes what was taken along with them. What is not sent they were told of, or it waits for them. */
export function LeftPhone() {
  useEffect(() => {
    const leave = async () => {
      const who = await person()
      await forgetPerson()
      if (who) await dropMarksOf(who.id)
    }
    // A browser that keeps nothing has nothing to forget.
    leave().catch(() => undefined)
  }, [])
  return null
}
