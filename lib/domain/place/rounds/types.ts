/** The words of a round as types. Times of day in s after midnight, lengths of time in s. */

/** What an owner asks of a visit: work begins no earlier and is over no later. Null where they do not mind. */
export type TimeWindow = { notBeforeS: number | null; doneByS: number | null }

/** A place to be at, and how long the work there takes. */
export type Stop = { id: string; serviceS: number; window: TimeWindow }

/**
 * A day's driving. `travelS[i][j]` is the time from i to j, the yard at 0 and `stops[i - 1]` at i; the same both ways.
 * The truck leaves the yard at `startS`; `endS` is when it should be back, null where nobody minds.
 */
export type RoundProblem = {
  travelS: readonly (readonly number[])[]
  stops: readonly Stop[]
  startS: number
  endS: number | null
}

/** One stop as it would go. `lateS` is how far past the owner's closing hour the work would end. */
export type StopTimes = {
  id: string
  travelS: number
  arriveS: number
  waitS: number
  beginS: number
  leaveS: number
  lateS: number
}

/** A whole day as it would go. `lateS` adds up every lateness, the return to the yard among them. */
export type Schedule = {
  stops: StopTimes[]
  travelS: number
  waitS: number
  homeS: number
  homeLateS: number
  lateS: number
}

/**
 * Throws  RangeError on a matrix that does not fit the stops, is not the same both ways, or holds a time that is
 *         negative or not finite: it is made by `travelTimes`, so that would be our bug.
 */
export function requireProblem({ travelS, stops }: RoundProblem): void {
  const size = stops.length + 1
  if (travelS.length !== size)
    throw new RangeError(`${travelS.length} rows of times for ${stops.length} stops and a yard`)
  travelS.forEach((row, i) => {
    if (row.length !== size) throw new RangeError(`row ${i} has ${row.length} times, not ${size}`)
    row.forEach((time, j) => {
      if (!(time >= 0 && Number.isFinite(time))) throw new RangeError(`time from ${i} to ${j} is ${time}`)
      if (time !== travelS[j]?.[i]) throw new RangeError(`times between ${i} and ${j} differ by direction`)
    })
  })
}
