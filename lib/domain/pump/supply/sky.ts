/** Clearness by FAO 56, eq. 35, with its recommended shares where nothing was fitted: 0.25 + 0.50 n/N. */
const OVERCAST_SHARE = 0.25
const SUNSHINE_SHARE = 0.5

/**
 * Mean clearness index of a month (energy on a level square metre over that above the air) from hours of bright sun.
 *
 * Units   hours a day, measured and possible.
 * Throws  RangeError for a day length that is not above zero, or sunshine outside 0 to the day length.
 * Source  Ångström's formula as in FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), eq. 35.
 */
export function clearnessFromSunshine(sunshineH: number, dayLengthH: number): number {
  if (!(dayLengthH > 0) || !(sunshineH >= 0 && sunshineH <= dayLengthH)) {
    throw new RangeError(`${sunshineH} h of sunshine in a day of ${dayLengthH} h`)
  }
  return OVERCAST_SHARE + (SUNSHINE_SHARE * sunshineH) / dayLengthH
}

/** The cloudiest day ever counted: Bendt, Collares-Pereira & Rabl 1981, Solar Energy 27:1-5. */
const CLEARNESS_MIN = 0.05
/** Months outside this are not on the earth's surface: a table in the wrong unit, or for another place. */
export const MONTHLY_CLEARNESS = { least: 0.1, most: 0.8 }

/**
 * Clearness of each day of a month with a given mean, in a fixed order in which dull days follow each other as they do.
 *
 * Days at the middles of equal shares of the published distribution, brought to the mean exactly.
 * Units   clearness without unit, 0.1 to 0.8; `days` 28 to 31.
 * Throws  RangeError outside them.
 * Source  distribution: Bendt et al. 1981 with the maximum of Hollands & Huget 1983 (Solar Energy 30:195-209) and the
 *         exponent of Huget 1985; order: Knight, Klein & Duffie 1991 (Solar Energy 46:109-120).
 */
export function clearnessOfDays(mean: number, days: number): number[] {
  if (!(mean >= MONTHLY_CLEARNESS.least && mean <= MONTHLY_CLEARNESS.most)) {
    throw new RangeError(`clearness ${mean} of a month`)
  }
  if (!Number.isInteger(days) || days < 28 || days > 31) throw new RangeError(`a month of ${days} days`)
  const ranked = Array.from({ length: days }, (_, i) => clearnessBelow(mean, (i + 0.5) / days))
  const factor = mean / (ranked.reduce((sum, k) => sum + k, 0) / days)
  return orderOf(mean)
    .filter((rank) => rank <= days)
    .map((rank) => factor * (ranked[rank - 1] ?? mean))
}

/** The clearness under which a given share of a month's days stay. */
function clearnessBelow(mean: number, share: number): number {
  const most = 0.6313 + 0.267 * mean - 11.9 * (mean - 0.75) ** 8
  const width = most - CLEARNESS_MIN
  const ratio = width / (most - mean)
  const exponent = -1.498 + (1.184 * ratio - 27.182 * Math.exp(-1.5 * ratio)) / width
  // The density is flat where the exponent vanishes.
  if (Math.abs(exponent * width) < 1e-6) return CLEARNESS_MIN + share * width
  return CLEARNESS_MIN + Math.log(1 + share * (Math.exp(exponent * width) - 1)) / exponent
}

/** Order of the days of a month, 1 the dullest, by how clear the month is. */
const ORDERS: readonly { below: number; ranks: readonly number[] }[] = [
  {
    below: 0.45,
    ranks: [
      24, 28, 11, 19, 18, 3, 2, 4, 9, 20, 14, 23, 8, 16, 21, 26, 15, 10, 22, 17, 5, 1, 6, 29, 12, 7, 31, 30,
      27, 13, 25,
    ],
  },
  {
    below: 0.55,
    ranks: [
      24, 27, 11, 19, 18, 3, 2, 4, 9, 20, 14, 23, 8, 16, 21, 7, 22, 10, 28, 6, 5, 1, 26, 29, 12, 17, 31, 30,
      15, 13, 25,
    ],
  },
  {
    below: Number.POSITIVE_INFINITY,
    ranks: [
      24, 27, 11, 4, 18, 3, 2, 19, 9, 25, 14, 23, 8, 16, 21, 26, 22, 10, 15, 17, 5, 1, 6, 29, 12, 7, 31, 20,
      28, 13, 30,
    ],
  },
]

const orderOf = (mean: number): readonly number[] => ORDERS.find((order) => mean <= order.below)?.ranks ?? []
