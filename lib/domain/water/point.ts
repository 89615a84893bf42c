/** What the place a sample was taken from says of it: the well's own water, or water that something was done to. */

const BEFORE = /\b(?:before|untreated|unfiltered|unsoftened|raw|ahead of|upstream)\b/i
const TREATED =
  /\b(?:treated|filtered|softened|disinfected|reverse osmosis|RO)\b|\b(?:after|behind|post|past)\b[\s-]*.*\b(?:treatment|treating|filters?|filtration|softener|softening|lamp|uv|osmosis|carbon|chlorinat\w*)\b/i

/**
 * Whether a sample was taken after treatment, as far as its point says. Such a sample speaks for what comes out of that tap
 * while the treatment works; a clear one says nothing of the well.
 */
export function isAfterTreatment(point: string): boolean {
  return TREATED.test(point) && !BEFORE.test(point)
}
