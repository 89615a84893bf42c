/** When in the day water is drawn. */
export type DrawPattern = 'even' | 'house' | 'daylight' | 'evening'

export type WaterUse = {
  /** The user's own word: house, stock, garden. */
  name: string
  /** m³ a day in each month, January first. */
  dailyM3: readonly number[]
  pattern: DrawPattern
}

/**
 * Weight of each hour of the day, midnight first. Common practice, no published source: they move water within a day
 * and matter only to a tank that holds less than a day.
 */
const WEIGHTS: Record<DrawPattern, readonly number[]> = {
  even: new Array<number>(24).fill(1),
  house: [1, 1, 1, 1, 1, 3, 8, 9, 7, 5, 4, 4, 5, 4, 3, 3, 4, 7, 8, 8, 6, 5, 3, 2],
  daylight: [0, 0, 0, 0, 0, 1, 2, 3, 3, 3, 3, 4, 4, 4, 3, 3, 3, 2, 1, 0, 0, 0, 0, 0],
  evening: [0, 0, 0, 0, 0, 1, 2, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 3, 4, 3, 1, 0, 0],
}

/**
 * Demand of each hour of the day in each month, m³: `demand[month - 1][hour]`.
 * Throws  RangeError for a use without twelve months, or a demand that is negative or not finite.
 */
export function demandByHour(uses: readonly WaterUse[]): number[][] {
  for (const use of uses) {
    if (use.dailyM3.length !== 12) throw new RangeError(`${use.name}: ${use.dailyM3.length} months of demand`)
    const wrong = use.dailyM3.find((m3) => !(m3 >= 0 && Number.isFinite(m3)))
    if (wrong !== undefined) throw new RangeError(`${use.name}: a demand of ${wrong} m³ a day`)
  }
  return Array.from({ length: 12 }, (_, month) =>
    Array.from({ length: 24 }, (_, hour) =>
      uses.reduce((sum, use) => sum + (use.dailyM3[month] ?? 0) * hourWeight(use.pattern, hour), 0),
    ),
  )
}

function hourWeight(pattern: DrawPattern, hour: number): number {
  const weights = WEIGHTS[pattern]
  return (weights[hour] ?? 0) / weights.reduce((sum, weight) => sum + weight, 0)
}
